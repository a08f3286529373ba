/** Drawings on the disk, and what a person does with them in the window. */
import * as fs from "node:fs";
import * as path from "node:path";
import type { Page } from "playwright-core";
import { newProject } from "../../core/project/new-project.ts";
import { readProject } from "../../core/project/read.ts";
import { writeProject } from "../../core/project/write.ts";
import type { DesktopProgram } from "./electron-double.ts";
import { newFolder } from "./launched.ts";

/** An empty drawing in a folder of its own. */
export function drawingOnDisk(name = "tug.loomwright"): string {
  const file = path.join(newFolder(), name);
  fs.writeFileSync(file, writeProject(newProject()));
  return file;
}

export function sheetsIn(file: string): number {
  const read = readProject(fs.readFileSync(file, "utf8"));
  if (!read.ok) throw new Error(read.problems.join(" "));
  return read.project.sheets.length;
}

/** Prepares the next answers of the dialogs that open files and folders. */
export const answerOpen = (program: DesktopProgram, file: string): Promise<void> =>
  program.evaluate(({ dialog }, chosen) => {
    dialog.showOpenDialog = () => Promise.resolve({ canceled: false, filePaths: [chosen] });
  }, file);

export const answerSave = (program: DesktopProgram, file: string): Promise<void> =>
  program.evaluate(({ dialog }, chosen) => {
    dialog.showSaveDialog = () => Promise.resolve({ canceled: false, filePath: chosen });
  }, file);

export const answerQuestion = (program: DesktopProgram, button: number): Promise<void> =>
  program.evaluate(({ dialog }, chosen) => {
    dialog.showMessageBoxSync = () => chosen;
  }, button);

export const choose = (program: DesktopProgram, id: string): Promise<void> =>
  program.evaluate(({ Menu }, wanted) => {
    const item = Menu.getApplicationMenu()?.getMenuItemById(wanted);
    if (item === null || item === undefined) throw new Error(`the menu has no entry ${wanted}`);
    item.click();
  }, id);

export async function edit(page: Page): Promise<void> {
  await page.keyboard.press("Control+k");
  await page.keyboard.type("Add a sheet");
  await page.keyboard.press("Enter");
  await titled(page, /^Unsaved: /);
}

/** Waits until the window has that title. */
export async function titled(page: Page, title: RegExp): Promise<void> {
  await page.waitForFunction(({ source, flags }) => new RegExp(source, flags).test(document.title), {
    source: title.source,
    flags: title.flags,
  });
}
