/**
 * Where the desktop shell's program stands. Looks only at the disk: asking the package itself would start a download
 * when the program is missing.
 */
import * as fs from "node:fs";
import { createRequire } from "node:module";
import * as path from "node:path";

/** @type {Readonly<Record<string, string>>} */
const PROGRAM = { win32: "electron.exe", darwin: "Electron.app/Contents/MacOS/Electron" };

/** @returns {string | undefined} the package's folder */
function packageFolder() {
  try {
    return path.dirname(createRequire(import.meta.url).resolve("electron/package.json"));
  } catch {
    return undefined;
  }
}

/** @returns {string | undefined} the program, if it is there and may be run */
export function findElectron() {
  const folder = packageFolder();
  if (folder === undefined) return undefined;
  let name = PROGRAM[process.platform] ?? "electron";
  try {
    name = fs.readFileSync(path.join(folder, "path.txt"), "utf8").trim() || name;
  } catch {
    // Not unpacked by its installer: the name is the system's usual one.
  }
  const program = path.join(process.env["ELECTRON_OVERRIDE_DIST_PATH"] ?? path.join(folder, "dist"), name);
  try {
    fs.accessSync(program, fs.constants.X_OK);
    return program;
  } catch {
    return undefined;
  }
}

/** @returns {string | undefined} the package's own installer, which downloads the program */
export function electronInstaller() {
  const folder = packageFolder();
  const installer = folder === undefined ? undefined : path.join(folder, "install.js");
  return installer !== undefined && fs.existsSync(installer) ? installer : undefined;
}

/** @returns {boolean} whether a window can be shown at all */
export const hasDisplay = () =>
  process.platform !== "linux" || Boolean(process.env["DISPLAY"] || process.env["WAYLAND_DISPLAY"]);
