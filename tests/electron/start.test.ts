/** npm start on a checkout: the main job on the faulty vehicle, done and explained, and it comes back. */
import { spawnSync } from "node:child_process";
import * as fs from "node:fs";
import * as path from "node:path";
import { expect, it } from "vitest";
import { ROOT } from "../architecture/stage.mjs";
import { built } from "./command-line/loomwright.ts";

it("prints the faulty vehicle's findings, writes its sheets and says what to try next", async () => {
  await built();
  const run = spawnSync(process.execPath, [path.join(ROOT, "electron/start.mjs")], {
    // From anywhere: it finds its checkout by itself.
    cwd: path.parse(ROOT).root,
    encoding: "utf8",
    timeout: 20_000,
  });
  expect(run.status).toBe(0);
  expect(run.stdout).toMatch(/^(DANGER|WARNING) {2}\S/m);
  expect(run.stdout).toMatch(/^Not checked \(\d+\)$/m);
  const sheets = run.stdout.split("\n").filter((line) => /^out\b.*\.svg$/.test(line));
  expect(sheets.length).toBeGreaterThan(0);
  for (const sheet of sheets) expect(fs.readFileSync(path.join(ROOT, sheet), "utf8")).toContain("<svg ");
  const tries = run.stdout
    .split("\n")
    .flatMap((line) => /^ {2}npm run -s loomwright -- (check|solve) (\S+)/.exec(line)?.[2] ?? []);
  expect(tries.length).toBeGreaterThan(0);
  for (const file of tries) expect(fs.existsSync(path.join(ROOT, file))).toBe(true);
}, 30_000);
