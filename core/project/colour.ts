/**
 * Conductor colours as letter codes. Source: IEC 60757 (codes and order of its table from memory; that codes are
 * joined in table order, red + blue = RDBU, and that green and yellow together are GNYE: seen).
 */
const CODES = {
  BK: ["black"],
  BN: ["brown"],
  RD: ["red"],
  OG: ["orange"],
  YE: ["yellow"],
  GN: ["green"],
  BU: ["blue"],
  VT: ["violet", "purple"],
  GY: ["grey", "gray"],
  WH: ["white"],
  PK: ["pink"],
  GD: ["gold"],
  TQ: ["turquoise"],
  SR: ["silver"],
} as const;
const ORDER: readonly string[] = Object.keys(CODES);

/**
 * A colour as typed (`orange`, `og`, `Red/Blue`, `GN-YE`) as its code (`OG`, `RDBU`, `GNYE`); undefined if it names
 * no colour of the standard.
 */
export function colourCode(typed: string): string | undefined {
  const text = typed.trim().toLowerCase();
  const pairs = text.match(/[a-z]{2}/g) ?? [];
  const joined = /^([a-z]{2})+$/.test(text) && pairs.every((pair) => wordCode(pair) !== undefined);
  const words = joined ? pairs : text.split(/[\s/+,-]+/).filter((word) => word !== "" && word !== "and");
  const codes = words.map(wordCode);
  const known = codes.filter((code) => code !== undefined);
  if (known.length === 0 || known.length !== codes.length || new Set(known).size !== known.length) return undefined;
  if (known.length === 2 && known.includes("GN") && known.includes("YE")) return "GNYE";
  return known.sort((a, b) => ORDER.indexOf(a) - ORDER.indexOf(b)).join("");
}

function wordCode(word: string): string | undefined {
  for (const [code, names] of Object.entries(CODES)) {
    if (word === code.toLowerCase() || (names as readonly string[]).includes(word)) return code;
  }
  return undefined;
}
