/** The icon files of all systems, made anew from the drawing: assets/packages, named in electron-builder.yml. */
import { iconPixels } from "./icon-drawing.ts";
import { icns, ico, png } from "./icon-files.ts";

const SIDES = [16, 32, 48, 128, 256, 512, 1024] as const;

/** By file name. */
export function iconFiles(): ReadonlyMap<string, Buffer> {
  const images = SIDES.map((side) => ({ side, bytes: png(iconPixels(side), side) }));
  const upTo = (most: number) => images.filter(({ side }) => side <= most);
  return new Map([
    ["icon.png", images.find(({ side }) => side === 1024)?.bytes ?? Buffer.alloc(0)],
    ["icon.ico", ico(upTo(256))],
    ["icon.icns", icns(images)],
  ]);
}
