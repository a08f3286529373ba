/**
 * The desktop program as it is built, in a double of Electron over a real Chromium. The double is not Electron: that
 * Electron starts at all, its sandbox, its own serialiser, native menus and dialogs, real drops and the delivery of
 * double-clicked files are proved only by the tests on Electron itself, which say when they were not run.
 */
import * as fs from "node:fs";
import * as path from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { Host } from "../../core/host/host.ts";
import { RecoveryStore } from "../../electron/files/recovery.ts";
import { NO_BROWSER } from "../harness/browser.ts";
import {
  answerOpen,
  answerQuestion,
  answerSave,
  choose,
  drawingOnDisk,
  edit,
  sheetsIn,
  titled,
} from "./drawing-on-disk.ts";
import { begin, finish, prepare, inDouble, inElectron, newFolder, readySettings } from "./launched.ts";
import { SHARED } from "./shared-specs.ts";

const LONGEST_MS = 40_000;

beforeAll(prepare, 120_000);
afterAll(finish);

describe("on Electron itself, the program", () => {
  for (const [name, test] of Object.entries(SHARED)) it(name, (context) => inElectron(context, test), LONGEST_MS);
});

describe("on the double (which is not Electron), the program", () => {
  for (const [name, test] of Object.entries(SHARED))
    it(name, (context) => inDouble(context, { words: [drawingOnDisk("blank.loomwright")] }, test), LONGEST_MS);

  it(
    "refuses popups, other pages, outside requests, permissions and strange scripts (Chromium's own popup is closed after the fact)",
    (context) =>
      inDouble(context, { words: [drawingOnDisk()] }, async ({ page, double }) => {
        const refused = (kind: string) => double.log.filter((each) => each.kind === kind).map(({ detail }) => detail);
        const there = page.url();
        await page.evaluate(() => void (location.href = "https://elsewhere.invalid/"));
        await expect.poll(() => refused("navigation refused")).toEqual(["https://elsewhere.invalid/"]);
        expect(page.url()).toBe(there);
        await page.evaluate(() => void window.open("about:blank"));
        await expect.poll(() => refused("popup")).toEqual(["deny"]);
        const fetched = await page.evaluate(() => fetch("https://elsewhere.invalid/x").then(String, () => "refused"));
        expect(fetched).toBe("refused");
        const ran = await page.evaluate(async () => {
          const script = document.createElement("script");
          script.textContent = "document.documentElement.dataset.stranger = 'ran'";
          document.head.append(script);
          const image = document.createElement("img");
          image.src = "https://elsewhere.invalid/x.png";
          await new Promise((resolve) => (image.onerror = resolve));
          return document.documentElement.dataset["stranger"] ?? "no";
        });
        expect(ran).toBe("no");
        // The policy stopped them in the page: none came as far as the request filter, which is asked by itself.
        expect(refused("request cancelled")).toEqual([]);
        for (const url of ["https://elsewhere.invalid/", "file:///etc/hostname", "ws://elsewhere.invalid/"])
          expect(await double.fetch(url, "GET")).toBeUndefined();
        expect(refused("request cancelled")).toHaveLength(3);
        let granted: boolean | undefined;
        double.permissionRequest?.({}, "geolocation", (answer) => (granted = answer));
        expect([granted, double.permissionCheck?.(), double.devicePermission?.()]).toEqual([false, false, false]);
        // The page has complained of each refusal, as it should.
        expect(double.problems.splice(0).length).toBeGreaterThanOrEqual(3);
      }),
    LONGEST_MS,
  );

  it(
    "serves the window's own files only, under the strict policy (the scheme itself is a stand-in here)",
    (context) =>
      inDouble(context, { words: [drawingOnDisk()] }, async ({ page, double }) => {
        const status = async (url: string, method = "GET") => {
          const answer = await double.fetch(url, method);
          expect(answer?.headers.get("content-security-policy")).toMatch(/^default-src 'none'; script-src 'self';/);
          return answer?.status;
        };
        expect(await status("app://bundle/index.html")).toBe(200);
        expect(await status("app://bundle/..%2f..%2fpackage.json")).toBe(403);
        expect(await status("app://bundle/%2e%2e%2f%2e%2e%2fpackage.json")).toBe(403);
        expect(await status("app://bundle/../main.cjs")).toBe(404);
        expect(await status("app://bundle/%00")).toBe(403);
        expect(await status("app://bundle/%")).toBe(400);
        expect(await status("app://elsewhere/index.html")).toBe(404);
        expect(await status("app://bundle/index.html", "POST")).toBe(405);
        const policy = await page.evaluate(async () =>
          (await fetch("./index.html")).headers.get("content-security-policy"),
        );
        expect(policy).toMatch(/frame-ancestors 'none'; object-src 'none'$/);
      }),
    LONGEST_MS,
  );

  it(
    "asks before it closes over unsaved work: keep, save, discard",
    async (context) => {
      const file = drawingOnDisk();
      await inDouble(context, { words: [file] }, async ({ program, page, double }) => {
        await titled(page, /^tug - /);
        const [window] = double.windows;
        await edit(page);
        expect(window?.edited).toBe(true);
        await answerQuestion(program, 2);
        window?.close();
        expect(double.windows).toHaveLength(1);
        await answerQuestion(program, 0);
        window?.close();
        await double.exited;
        expect(sheetsIn(file)).toBe(2);
      });
      const settings = readySettings();
      await inDouble(context, { words: [file], userData: settings }, async ({ program, page, double }) => {
        await titled(page, /^tug - /);
        await edit(page);
        await page.evaluate(() => dispatchEvent(new Event("blur")));
        await expect.poll(() => recoveriesIn(settings)).toBe(1);
        await answerQuestion(program, 1);
        await double.quit();
        await double.exited;
        expect(sheetsIn(file)).toBe(2);
        expect(recoveriesIn(settings)).toBe(0);
      });
    },
    LONGEST_MS,
  );

  it(
    "offers unsaved work that an ended program left, and again when the page breaks off (of which only the event is played)",
    async (context) => {
      const settings = readySettings();
      const left = drawingOnDisk();
      const id = "3f8e1c52-7a90-4b1d-9c36-0d2f4e5a6b7c";
      await new RecoveryStore(path.join(settings, "recovery")).write(
        id,
        "barrow.loomwright",
        fs.readFileSync(left, "utf8"),
      );
      await inDouble(context, { userData: settings }, async ({ program, page, double }) => {
        await page.getByRole("dialog").getByText("barrow.loomwright").first().waitFor();
        await page
          .getByRole("dialog")
          .getByRole("button", { name: /recover/i })
          .click();
        await titled(page, /^Unsaved: barrow/);
        await expect.poll(() => recoveriesIn(settings)).toBe(1);
        await answerQuestion(program, 0);
        double.windows[0]?.webContents.emit("render-process-gone", {}, { reason: "crashed" });
        await page.getByRole("dialog").getByText("barrow.loomwright").first().waitFor();
        await page
          .getByRole("dialog")
          .getByRole("button", { name: /recover/i })
          .click();
        await titled(page, /^Unsaved: barrow/);
      });
    },
    LONGEST_MS,
  );

  it(
    "takes drawings that the system asks for: before it is ready, from a second start; and says what it cannot open",
    async (context) => {
      const [first, second] = [drawingOnDisk("first.loomwright"), drawingOnDisk("second.loomwright")];
      await inDouble(context, { words: ["--flag", first] }, async ({ program, page, double }) => {
        await titled(page, /^first - /);
        double.app.emit("second-instance", {}, ["electron", "--flag", path.basename(second)], path.dirname(second));
        await titled(page, /^second - /);
        expect(double.log.filter(({ kind }) => kind === "recent").map(({ detail }) => detail)).toEqual([first, second]);
        let said = "";
        await program.evaluate(
          ({ dialog }, hear) => {
            dialog.showMessageBoxSync = (_window: unknown, options?: { readonly message: string }) => {
              hear(options?.message ?? "");
              return 0;
            };
          },
          (message: string) => void (said = message),
        );
        double.app.emit(
          "open-file",
          { preventDefault: () => undefined },
          path.join(path.dirname(first), "no.loomwright"),
        );
        await expect
          .poll(() => said)
          .toBe("no.loomwright: there is no such file. Look at its name and folder, it may have been moved.");
      });
    },
    LONGEST_MS,
  );

  it(
    "notices a change by another program, exports into a folder, saves under another name, lists what was recent",
    async (context) => {
      const [file, other, folder] = [drawingOnDisk(), drawingOnDisk("other.loomwright"), newFolder()];
      await inDouble(context, { words: [file] }, async ({ program, page }) => {
        await titled(page, /^tug - /);
        await edit(page);
        fs.appendFileSync(file, "\n");
        await page.getByRole("dialog").getByText("was changed by another program").waitFor();
        await page.getByRole("dialog").getByRole("button", { name: "Keep what is here" }).click();
        await answerOpen(program, folder);
        await choose(program, "export-svg");
        await page.getByRole("status").getByText("2 sheets are exported.").waitFor();
        expect(fs.readdirSync(folder).every((name) => /^0[12].*\.svg$/.test(name))).toBe(true);
        expect(fs.readdirSync(folder)).toHaveLength(2);
        const paper = path.join(folder, "tug-findings.html");
        await answerSave(program, paper);
        await choose(program, "save-report");
        await page.getByRole("status").getByText("The findings report is saved.").waitFor();
        expect(fs.readFileSync(paper, "utf8")).toMatch(/^<!DOCTYPE html>[\s\S]*Findings report[\s\S]*<\/html>\n$/);
        await answerSave(program, other);
        await choose(program, "save-as");
        await titled(page, /^other - /);
        expect([sheetsIn(file), sheetsIn(other)]).toEqual([1, 2]);
        // By the key, which the window itself hears: once, not once more by the menu.
        await edit(page);
        await page.keyboard.press("Control+s");
        await titled(page, /^other - /);
        expect([sheetsIn(other), sheetsIn(`${other}.bak`)]).toEqual([3, 2]);
        const recent = await page.evaluate(async () => {
          const { loomwright } = window as unknown as { readonly loomwright: Host };
          return loomwright.recentFiles();
        });
        expect(recent.map(({ name }) => name)).toEqual(["other.loomwright", "tug.loomwright"]);
      });
    },
    LONGEST_MS,
  );

  it("ends at once, without a window, when it runs already", async (context) => {
    const double = begin({ onlyInstance: false })?.double;
    if (double === undefined) return context.skip(NO_BROWSER);
    await double.exited;
    expect([double.windows.length, double.isReady, double.problems]).toEqual([0, false, []]);
  });
});

const recoveriesIn = (settings: string): number => {
  const folder = path.join(settings, "recovery");
  return fs.existsSync(folder) ? fs.readdirSync(folder).filter((name) => name.endsWith(".json")).length : 0;
};
