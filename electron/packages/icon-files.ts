/** Pixels as PNG, and PNGs as the icon files of Windows (ICO) and macOS (ICNS), both of which hold PNGs as they are. */
import { crc32, deflateSync } from "node:zlib";

/** PNG of RGBA pixels, ISO/IEC 15948. */
export function png(pixels: Uint8Array, side: number): Buffer {
  const rows = Buffer.alloc(side * (side * 4 + 1));
  for (let row = 0; row < side; row += 1)
    Buffer.from(pixels.buffer, pixels.byteOffset + row * side * 4, side * 4).copy(rows, row * (side * 4 + 1) + 1);
  const header = Buffer.alloc(13);
  header.writeUInt32BE(side, 0);
  header.writeUInt32BE(side, 4);
  header.set([8, 6, 0, 0, 0], 8);
  const signature = Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]);
  return Buffer.concat([
    signature,
    chunk("IHDR", header),
    chunk("IDAT", deflateSync(rows, { level: 9 })),
    chunk("IEND", Buffer.alloc(0)),
  ]);
}

function chunk(name: string, data: Buffer): Buffer {
  const body = Buffer.concat([Buffer.from(name, "latin1"), data]);
  const [length, check] = [Buffer.alloc(4), Buffer.alloc(4)];
  length.writeUInt32BE(data.length);
  check.writeUInt32BE(crc32(body));
  return Buffer.concat([length, body, check]);
}

interface Sized {
  readonly side: number;
  readonly bytes: Buffer;
}

/** ICO with PNG entries, up to 256 pixels; a side of 256 is written as 0. */
export function ico(images: readonly Sized[]): Buffer {
  const head = Buffer.alloc(6 + 16 * images.length);
  head.writeUInt16LE(1, 2);
  head.writeUInt16LE(images.length, 4);
  let offset = head.length;
  images.forEach(({ side, bytes }, index) => {
    const at = 6 + 16 * index;
    head.set([side % 256, side % 256, 0, 0, 1, 0, 32, 0], at);
    head.writeUInt32LE(bytes.length, at + 8);
    head.writeUInt32LE(offset, at + 12);
    offset += bytes.length;
  });
  return Buffer.concat([head, ...images.map(({ bytes }) => bytes)]);
}

/** The entries of ICNS that hold a PNG, by the side of the picture. */
const ICNS_TYPES: Readonly<Record<number, string>> = { 128: "ic07", 256: "ic08", 512: "ic09", 1024: "ic10" };

export function icns(images: readonly Sized[]): Buffer {
  const entries = images.flatMap(({ side, bytes }) => {
    const type = ICNS_TYPES[side];
    if (type === undefined) return [];
    const head = Buffer.alloc(8, type, "latin1");
    head.writeUInt32BE(bytes.length + 8, 4);
    return [head, bytes];
  });
  const head = Buffer.alloc(8, "icns", "latin1");
  head.writeUInt32BE(8 + entries.reduce((sum, entry) => sum + entry.length, 0), 4);
  return Buffer.concat([head, ...entries]);
}
