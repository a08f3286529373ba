/** A hand on the sheet in the real window: places on the paper, parts put down, wires led, a file opened. */
import type { Locator, Page } from "playwright-core";
import { writeProject } from "../../core/project/write.ts";
import type { Project } from "../../core/project/document.ts";

export const surface = (page: Page): Locator => page.locator("#sheet-surface");
export const terminal = (page: Page, key: string): Locator => page.locator(`[data-terminal="${key}"]`);
export const wireLine = (page: Page, id: string): Locator => page.locator(`[data-wire="${id}"] .wire-line`);

/** Where a place of the A3 sheet (420 mm wide) lies on the screen. */
export async function onScreen(page: Page, x: number, y: number): Promise<readonly [number, number]> {
  const box = await page.locator("svg.paper").boundingBox();
  if (box === null) throw new Error("there is no paper");
  return [box.x + (x / 420) * box.width, box.y + (y / 420) * box.width];
}

export async function middleOf(place: Locator): Promise<readonly [number, number]> {
  const box = await place.boundingBox();
  if (box === null) throw new Error("it does not show");
  return [box.x + box.width / 2, box.y + box.height / 2];
}

/** Types a part's name on the sheet, takes the first that is found and puts it down with the pointer. */
export async function put(page: Page, name: string, x: number, y: number): Promise<void> {
  await surface(page).focus();
  await page.keyboard.type(name);
  await page.getByRole("option").first().waitFor();
  await page.keyboard.press("Enter");
  await page.locator(".hanging").waitFor();
  const at = await onScreen(page, x, y);
  await page.mouse.move(...at);
  await page.mouse.click(...at);
  await page.locator(".hanging").waitFor({ state: "detached" });
}

export async function drag(page: Page, from: readonly [number, number], to: readonly [number, number]): Promise<void> {
  await page.mouse.move(...from);
  await page.mouse.down();
  await page.mouse.move((from[0] + to[0]) / 2, (from[1] + to[1]) / 2);
  await page.mouse.move(...to);
}

export async function leadWire(page: Page, from: string, to: string): Promise<void> {
  await drag(page, await middleOf(terminal(page, from)), await middleOf(terminal(page, to)));
  await page.mouse.up();
}

/** Opens a drawing as a file that the person chooses; the window must be opened without the browser's own pickers. */
export async function openDrawing(page: Page, project: Project): Promise<void> {
  const [chooser] = await Promise.all([page.waitForEvent("filechooser"), page.keyboard.press("Control+o")]);
  const buffer = Buffer.from(writeProject(project));
  await chooser.setFiles({ name: "given.loomwright", mimeType: "application/json", buffer });
}
