/** What must hold whoever runs the program: the double, or Electron itself. */
import * as fs from "node:fs";
import * as path from "node:path";
import { expect } from "vitest";
import type { Host } from "../../core/host/host.ts";
import { answerOpen, choose, drawingOnDisk, edit, sheetsIn, titled } from "./drawing-on-disk.ts";
import type { Launched } from "./launched.ts";

const FUNCTIONS = [
  "dropRecovery",
  "exportFiles",
  "demos",
  "listRecoveries",
  "loadPreferences",
  "onChangedOnDisk",
  "onMenu",
  "onOpenRequest",
  "openDemo",
  "openDropped",
  "openFile",
  "openRecent",
  "recentFiles",
  "saveFile",
  "saveFileAs",
  "savePreferences",
  "setDirty",
  "writeRecovery",
].sort();

export const SHARED: Readonly<Record<string, (launched: Launched) => Promise<void>>> = {
  "opens a drawing through the menu and saves it whole, the old one beside it": async ({ program, page }) => {
    const file = drawingOnDisk();
    const before = fs.readFileSync(file, "utf8");
    await answerOpen(program, file);
    await choose(program, "open");
    await titled(page, /^tug - /);
    await edit(page);
    await choose(program, "save");
    await page.getByRole("status").getByText("tug.loomwright is saved.").waitFor();
    expect(sheetsIn(file)).toBe(2);
    expect(fs.readFileSync(`${file}.bak`, "utf8")).toBe(before);
    expect(fs.readdirSync(path.dirname(file)).sort()).toEqual(["tug.loomwright", "tug.loomwright.bak"]);
    await titled(page, /^tug - /);
  },

  "gives the page named functions, and no part of Node or Electron": async ({ page }) => {
    const seen = await page.evaluate(() => {
      const given = (window as unknown as { readonly loomwright: Record<string, unknown> }).loomwright;
      return {
        functions: Object.keys(given)
          .filter((key) => typeof given[key] === "function")
          .sort(),
        others: Object.keys(given)
          .filter((key) => typeof given[key] !== "function")
          .sort(),
        frozen: Object.isFrozen(given),
        strangers: ["require", "process", "module", "Buffer", "ipcRenderer", "electron"].filter(
          (name) => name in window,
        ),
        secure: isSecureContext,
      };
    });
    expect(seen).toEqual({
      functions: FUNCTIONS,
      others: ["abilities", "kind"],
      frozen: true,
      strangers: [],
      secure: true,
    });
  },

  "saves to no file that was not given out, and to none by its path": async ({ page }) => {
    // A decoy of the test's own: if the guard fails, this is what is written to.
    const decoy = drawingOnDisk("decoy.loomwright");
    const before = fs.readFileSync(decoy, "utf8");
    const results = await page.evaluate(async (place) => {
      const { loomwright } = window as unknown as { readonly loomwright: Host };
      const bytes = new Uint8Array([104, 105]);
      const save = (token: unknown) =>
        loomwright.saveFile({ token: token as string, name: "decoy.loomwright" }, "decoy.loomwright", bytes, true).then(
          (result) => (result.saved ? "saved" : result.why === "failed" ? result.text : result.why),
          (cause: unknown) => `refused: ${String(cause)}`,
        );
      // Were a token taken for a name, it would be written beside the decoy.
      return [await save(place), await save(`${place}.other`), await save({ path: place })];
    }, decoy);
    expect(results[0]).toBe("This drawing has no file here yet. Save it under a name first.");
    expect(results[1]).toBe(results[0]);
    expect(results[2]).toMatch(/^refused: .*file:save: takes a token or null, a name, bytes, true or false/);
    expect(fs.readFileSync(decoy, "utf8")).toBe(before);
    expect(fs.readdirSync(path.dirname(decoy))).toEqual(["decoy.loomwright"]);
  },
};
