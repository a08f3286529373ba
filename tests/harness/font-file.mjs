/**
 * Reads what a TrueType file says about the width of its characters: tables head, hhea, hmtx, cmap (format 4 or
 * 12) and the height of capitals from OS/2. Nothing of the project's own code is used, so that a test can compare.
 * @param {Buffer} file
 * @returns {{ unitsPerEm: number, capHeight: number, ascent: number, descent: number, advances: Map<number, number> }}
 */
export function readFont(file) {
  const tables = new Map();
  for (let i = 0; i < file.readUInt16BE(4); i += 1) {
    const record = 12 + 16 * i;
    tables.set(file.toString("latin1", record, record + 4), file.readUInt32BE(record + 8));
  }
  /** @param {string} name */
  const at = (name) => {
    const offset = tables.get(name);
    if (offset === undefined) throw new Error(`the font file has no table "${name}"`);
    return Number(offset);
  };
  const measured = file.readUInt16BE(at("hhea") + 34);
  /** @param {number} glyph */
  const advance = (glyph) => file.readUInt16BE(at("hmtx") + 4 * Math.min(glyph, measured - 1));
  const advances = new Map();
  for (const [character, glyph] of characters(file, at("cmap"))) advances.set(character, advance(glyph));
  return {
    unitsPerEm: file.readUInt16BE(at("head") + 18),
    capHeight: file.readInt16BE(at("OS/2") + 88),
    ascent: file.readInt16BE(at("hhea") + 4),
    descent: file.readInt16BE(at("hhea") + 6),
    advances,
  };
}

/**
 * @param {Buffer} file
 * @param {number} cmap
 * @returns {[number, number][]} pairs of character and glyph
 */
function characters(file, cmap) {
  for (let i = 0; i < file.readUInt16BE(cmap + 2); i += 1) {
    const table = cmap + file.readUInt32BE(cmap + 4 + 8 * i + 4);
    const format = file.readUInt16BE(table);
    if (format === 4) return segments(file, table);
    if (format === 12) return groups(file, table);
  }
  throw new Error("the font file maps its characters in a way that this reader does not know");
}

/**
 * @param {Buffer} file
 * @param {number} table
 * @returns {[number, number][]}
 */
function segments(file, table) {
  const count = file.readUInt16BE(table + 6) / 2;
  /** @type {[number, number][]} */
  const pairs = [];
  for (let i = 0; i < count; i += 1) {
    const last = file.readUInt16BE(table + 14 + 2 * i);
    const first = file.readUInt16BE(table + 16 + 2 * count + 2 * i);
    const delta = file.readUInt16BE(table + 16 + 4 * count + 2 * i);
    const rangeAt = table + 16 + 6 * count + 2 * i;
    const range = file.readUInt16BE(rangeAt);
    for (let character = first; character <= last && character !== 0xffff; character += 1) {
      const listed = range === 0 ? character : file.readUInt16BE(rangeAt + range + 2 * (character - first));
      const glyph = listed === 0 ? 0 : (listed + delta) & 0xffff;
      if (glyph !== 0) pairs.push([character, glyph]);
    }
  }
  return pairs;
}

/**
 * @param {Buffer} file
 * @param {number} table
 * @returns {[number, number][]}
 */
function groups(file, table) {
  /** @type {[number, number][]} */
  const pairs = [];
  for (let i = 0; i < file.readUInt32BE(table + 12); i += 1) {
    const group = table + 16 + 12 * i;
    const first = file.readUInt32BE(group);
    for (let character = first; character <= file.readUInt32BE(group + 4); character += 1) {
      pairs.push([character, file.readUInt32BE(group + 8) + character - first]);
    }
  }
  return pairs;
}
