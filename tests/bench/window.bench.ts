/** The built window in a browser without a screen: what a person waits for. */
import { centre } from "../../core/geometry/boxes.ts";
import { placedViews } from "../../core/layout/placed-view.ts";
import { writeProject } from "../../core/project/write.ts";
import { NO_BROWSER } from "../harness/browser.ts";
import { crowdedSheet, viewCount } from "../harness/crowded-sheet.ts";
import { WindowHarness } from "../harness/window.ts";
import type { OpenedWindow } from "../harness/window.ts";
import { framesWhile, timeOfKey } from "./in-page.ts";
import type { Gesture, Shown } from "./in-page.ts";
import { median, timed, type Row } from "./row.ts";

const DEMOS = ["yard-tug-48v", "yard-tug-48v-faulty", "farm-pickup-96v", "farm-pickup-96v-faulty"];
const STARTS = 5;
const EDITS = 12;
/** A screen shows sixty frames a second; a frame that comes a little late still counts as one of them. */
const MEDIAN_FRAME = 17;
const SLOW_FRAME = 34;

export async function rows(): Promise<Row[]> {
  const harness = await WindowHarness.start();
  if (harness === undefined) return [{ what: "the window", measured: `not run: ${NO_BROWSER}` }];
  try {
    return [...(await starts(harness)), ...(await edits(harness)), ...(await crowded(harness))];
  } finally {
    await harness.stop();
  }
}

async function starts(harness: WindowHarness): Promise<Row[]> {
  const times: number[] = [];
  for (let index = 0; index < STARTS; index += 1) {
    const opened = await harness.open();
    times.push(await opened.readyAfter());
    await opened.close();
  }
  return [timed(`open to interactive, with a demo (median of ${String(STARTS)})`, median(times), 1500)];
}

/** A fuse is deleted, brought back, deleted again: from the key to the findings on screen. */
async function edits(harness: WindowHarness): Promise<Row[]> {
  const list: Row[] = [];
  for (const demo of DEMOS) {
    const opened = await harness.open({ query: `demo=${demo}` });
    opened.page.setDefaultTimeout(10_000);
    await opened.settled();
    await aFuse(opened).click();
    await opened.page.keyboard.press("Delete");
    await opened.page.waitForTimeout(500);
    const times: Shown[] = [];
    for (let index = 0; index < EDITS; index += 1) {
      const key = index % 2 === 0 ? "Control+z" : "Control+Shift+z";
      // A handle: the watch stands before the key goes down, and is waited for afterwards.
      const time = await opened.page.evaluateHandle(timeOfKey);
      await opened.page.keyboard.press(key);
      times.push(await time.evaluate(({ shown }) => shown));
      await opened.page.waitForTimeout(150);
    }
    const [findings, settled] = [times.map((time) => time.findings), times.map((time) => time.settled)];
    list.push(timed(`${demo}: findings on screen after an edit (median of ${String(EDITS)})`, median(findings), 50));
    list.push(timed("  the slowest of them", Math.max(...findings)));
    list.push(timed("  every check gone through (median)", median(settled)));
    await opened.close();
  }
  return list;
}

const aFuse = ({ page }: OpenedWindow) => page.getByRole("img", { name: /^F\d+, Fuse/ }).first();

async function crowded(harness: WindowHarness): Promise<Row[]> {
  const project = crowdedSheet();
  const opened = await harness.open({ query: "new", width: 1400, height: 900, withoutPickers: true });
  const { page } = opened;
  const [chooser] = await Promise.all([page.waitForEvent("filechooser"), page.keyboard.press("Control+o")]);
  await chooser.setFiles({
    name: "crowded.loomwright",
    mimeType: "application/json",
    buffer: Buffer.from(writeProject(project)),
  });
  await page.locator("[data-part]").first().waitFor();
  await opened.settled();

  await page.locator("[data-routing='settled']").waitFor({ timeout: 60_000, state: "attached" });
  const size = `${String(viewCount(project))} views, ${String(project.wires.length)} wires on a sheet`;
  const parts = placedViews(project, project.sheets[0]?.id ?? "").map(({ box }) => {
    const { x, y } = centre(box);
    return [x, y] as const;
  });
  const list: Row[] = [{ what: size, measured: "" }];
  for (const [view, to, gestures] of [
    ["paper", undefined, ["pan", "zoom", "drag"]],
    ["all in sight", "to-all", ["pan", "zoom", "drag"]],
    ["100 %", "to-100", ["pan", "zoom", "drag"]],
  ] as const) {
    if (to !== undefined) await page.evaluate(framesWhile, { gesture: to, frames: 0, parts } satisfies Gesture);
    await page.waitForTimeout(800);
    for (const gesture of gestures) {
      const frames = await page.evaluate(framesWhile, { gesture, frames: 120, parts } satisfies Gesture);
      await page.waitForTimeout(800);
      const sorted = [...frames].sort((a, b) => a - b);
      const late = sorted[Math.floor(sorted.length * 0.95)] ?? NaN;
      list.push(timed(`  ${view}, ${gesture}: median frame`, median(frames), MEDIAN_FRAME));
      list.push(timed(`  ${view}, ${gesture}: 95th percentile`, late, SLOW_FRAME));
    }
  }
  await opened.close();
  return list;
}
