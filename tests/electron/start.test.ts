/** npm start on a checkout without a desktop shell: builds, serves, says where, and comes back when asked to. */
import { spawn, spawnSync } from "node:child_process";
import * as fs from "node:fs";
import * as os from "node:os";
import * as path from "node:path";
import { beforeAll, describe, expect, it } from "vitest";
import { buildRenderer } from "../../electron/web-server/build.mjs";
import { ROOT } from "../architecture/stage.mjs";
import { built } from "./command-line/loomwright.ts";

const START = path.join(ROOT, "electron/start.mjs");
// From anywhere: it finds its checkout by itself.
const ELSEWHERE = path.parse(ROOT).root;

beforeAll(async () => {
  await built();
  await buildRenderer(() => undefined);
}, 60_000);

describe("npm start", () => {
  it("serves the page once on a build machine, says where, names the command line, and ends", () => {
    const run = spawnSync(process.execPath, [START, "--port", "0"], {
      cwd: ELSEWHERE,
      env: { ...process.env, CI: "true" },
      encoding: "utf8",
      timeout: 20_000,
    });
    expect(run.stderr).toBe("");
    expect(run.stdout).toMatch(/http:\/\/127\.0\.0\.1:\d+\//);
    expect(run.stdout).toMatch(/The page comes\./);
    expect(run.stdout).toMatch(/npm run -s loomwright -- check /);
    expect(run.status).toBe(0);
  }, 30_000);

  it("keeps serving for a browser until it is told to end", async () => {
    const { CI: _, ...env } = process.env;
    const child = spawn(process.execPath, [START, "--web", "--no-open", "--port", "0"], { cwd: ELSEWHERE, env });
    try {
      const url = await new Promise<string>((resolve, reject) => {
        let said = "";
        child.stdout.on("data", (chunk: Buffer) => {
          said += chunk.toString();
          const address = /http:\S+/.exec(said)?.[0];
          if (address !== undefined && said.includes("Open that address")) resolve(address);
        });
        child.on("exit", () => reject(new Error(`It ended by itself: ${said}`)));
      });
      const page = await fetch(url);
      expect(page.status).toBe(200);
      expect(await page.text()).toContain('id="window"');
    } finally {
      child.kill();
    }
  }, 30_000);

  it("starts the desktop shell where it is there, on this checkout, and hands its exit code back", (context) => {
    if (process.platform !== "linux") return context.skip("the stand-in is a Linux script");
    // A stand-in that only tells how it was started: the shell itself is not on a build machine.
    const folder = fs.mkdtempSync(path.join(os.tmpdir(), "loomwright-"));
    fs.writeFileSync(path.join(folder, "electron"), '#!/bin/sh\necho "begun: $@ [$ELECTRON_RUN_AS_NODE]"\nexit 86\n');
    fs.chmodSync(path.join(folder, "electron"), 0o755);
    const { CI: _, ...env } = process.env;
    const run = spawnSync(process.execPath, [START], {
      cwd: ELSEWHERE,
      env: { ...env, ELECTRON_OVERRIDE_DIST_PATH: folder, ELECTRON_RUN_AS_NODE: "1", DISPLAY: ":99" },
      encoding: "utf8",
      timeout: 25_000,
    });
    fs.rmSync(folder, { recursive: true });
    expect(run.stdout).toContain("Loomwright opens in its own window.");
    expect(run.stdout).toMatch(new RegExp(`^begun: (--no-sandbox )?${ROOT} \\[\\]$`, "m"));
    expect(run.status).toBe(86);
  }, 30_000);

  it("says what it does not know, in one place, and starts nothing", () => {
    const unknown = spawnSync(process.execPath, [START, "--wbe"], { encoding: "utf8", timeout: 20_000 });
    expect(unknown.stderr).toMatch(/"--wbe" is not known\.\n.*--web/s);
    expect(unknown.status).toBe(2);
    const port = spawnSync(process.execPath, [START, "--port", "high"], { encoding: "utf8", timeout: 20_000 });
    expect(port.stderr).toMatch(/--port takes a number/);
    expect(port.status).toBe(2);
  }, 30_000);
});
