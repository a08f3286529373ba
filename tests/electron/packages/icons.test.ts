/** The icon files as they lie in the repository: drawn anew they are the same, and each format holds what its head says. */
import * as fs from "node:fs";
import * as path from "node:path";
import { inflateSync } from "node:zlib";
import { describe, expect, it } from "vitest";
import { iconPixels } from "../../../electron/packages/icon-drawing.ts";
import { iconFiles } from "../../../electron/packages/icons.ts";

const FOLDER = path.resolve(import.meta.dirname, "../../../assets/packages");
const SIGNATURE = "89504e470d0a1a0a";

describe("icons", () => {
  const files = iconFiles();

  it("in the repository are those of the drawing", () => {
    for (const [name, bytes] of files) {
      // The pixels count, not how a version of the packer packs them.
      const there = fs.readFileSync(path.join(FOLDER, name));
      expect(there.length, name).toBeGreaterThan(bytes.length / 2);
      if (name === "icon.png") expect(pixelsOf(there).equals(pixelsOf(bytes))).toBe(true);
    }
  });

  it("ICO: every entry of the directory is a PNG of its size", () => {
    const bytes = files.get("icon.ico") ?? Buffer.alloc(0);
    const count = bytes.readUInt16LE(4);
    expect(count).toBe(5);
    for (let index = 0; index < count; index += 1) {
      const at = 6 + 16 * index;
      const image = bytes.subarray(
        bytes.readUInt32LE(at + 12),
        bytes.readUInt32LE(at + 12) + bytes.readUInt32LE(at + 8),
      );
      expect(image.subarray(0, 8).toString("hex")).toBe(SIGNATURE);
      expect(image.readUInt32BE(16) % 256).toBe(bytes[at]);
    }
  });

  it("ICNS: the lengths add up and lead from PNG to PNG", () => {
    const bytes = files.get("icon.icns") ?? Buffer.alloc(0);
    expect(bytes.readUInt32BE(4)).toBe(bytes.length);
    const sides: number[] = [];
    for (let at = 8; at < bytes.length; at += bytes.readUInt32BE(at + 4)) {
      expect(bytes.subarray(at + 8, at + 16).toString("hex")).toBe(SIGNATURE);
      sides.push(bytes.readUInt32BE(at + 8 + 16));
    }
    expect(sides).toEqual([128, 256, 512, 1024]);
  });

  it("shows paper, traction orange and ink, and is clear outside the sheet", () => {
    const pixels = iconPixels(256);
    const at = (x: number, y: number): string => [...pixels.subarray((y * 256 + x) * 4, (y * 256 + x) * 4 + 4)].join();
    expect(at(0, 0).endsWith(",0")).toBe(true);
    expect(at(60, 220)).toBe("255,255,255,255");
    expect(at(40, 96)).toBe("179,71,0,255");
    expect(at(15, 128)).toBe("22,24,26,255");
  });
});

const pixelsOf = (png: Buffer): Buffer => inflateSync(png.subarray(41, 41 + png.readUInt32BE(33)));
