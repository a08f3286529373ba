/** Who is let in to the main process, and with what. */
import { describe, expect, it } from "vitest";
import { FileProblem } from "../../../electron/files/file-problem.ts";
import type { ElectronApi } from "../../../electron/main/electron-api.ts";
import { Gate } from "../../../electron/main/gate.ts";
import { isOurs } from "../../../electron/main/page-address.ts";
import { BYTES, EXPORTS, FLAG, NAME, TOKEN_OR_NULL } from "../../../electron/main/shapes.ts";

const PAGE = "app://bundle/index.html";
const window = { name: "the window" };

/** A gate before one question and one remark, and the way a sender would use them. */
function gate() {
  const asked: unknown[] = [];
  const said: unknown[] = [];
  const entries = new Map<string, (event: unknown, ...given: unknown[]) => unknown>();
  const enter = (channel: string, listener: (event: never, ...given: unknown[]) => unknown): void =>
    void entries.set(channel, listener as (event: unknown, ...given: unknown[]) => unknown);
  const ipc = { handle: enter, on: enter } as unknown as ElectronApi["ipcMain"];
  const made = new Gate(ipc, () => window as never);
  made.answer("ask", [NAME, FLAG], (name, flag) => {
    asked.push([name, flag]);
    if (name === "mend") return Promise.reject(new FileProblem("Do this."));
    if (name === "fault") return Promise.reject(new Error("a fault"));
    return Promise.resolve("answer");
  });
  made.hear("say", [FLAG], (flag) => said.push(flag));
  const send = async (channel: string, event: object, ...given: unknown[]): Promise<unknown> =>
    entries.get(channel)?.(event, ...given);
  return { send, asked, said };
}

const own = { sender: window, senderFrame: { url: PAGE, parent: null } };

describe("the gate", () => {
  it("lets the window's own page in", async () => {
    const { send, asked, said } = gate();
    expect(await send("ask", own, "name", true)).toEqual({ ok: true, value: "answer" });
    await send("say", own, true);
    expect([asked, said]).toEqual([[["name", true]], [true]]);
  });

  it("hands a sentence for people on as a value, and throws a fault", async () => {
    const { send } = gate();
    expect(await send("ask", own, "mend", true)).toEqual({ ok: false, text: "Do this." });
    await expect(send("ask", own, "fault", true)).rejects.toThrow("a fault");
  });

  const strangers: Readonly<Record<string, object>> = {
    "another window": { ...own, sender: {} },
    "a frame within the page": { ...own, senderFrame: { url: PAGE, parent: {} } },
    "a frame that is gone": { ...own, senderFrame: null },
    "a page from elsewhere": { ...own, senderFrame: { url: "https://elsewhere.invalid/", parent: null } },
    "a page of another host under our scheme": {
      ...own,
      senderFrame: { url: "app://elsewhere/index.html", parent: null },
    },
    "a page that only looks like ours": { ...own, senderFrame: { url: "https://bundle/index.html", parent: null } },
    "a page without an address": { ...own, senderFrame: { url: "", parent: null } },
  };
  for (const [who, event] of Object.entries(strangers))
    it(`keeps out ${who}`, async () => {
      const { send, asked, said } = gate();
      await expect(send("ask", event, "name", true)).rejects.toThrow("only the window itself may ask");
      await send("say", event, true);
      expect([asked, said]).toEqual([[], []]);
    });

  it("keeps out arguments of another number or shape", async () => {
    const { send, asked, said } = gate();
    for (const given of [[], ["name"], ["name", true, 1], [1, true], ["name", "true"], ["n".repeat(256), true]])
      await expect(send("ask", own, ...given)).rejects.toThrow("ask: takes a name, true or false");
    await send("say", own, "true");
    expect([asked, said]).toEqual([[], []]);
  });
});

describe("what may come in", () => {
  it("is bytes up to a length, and a token or nothing", () => {
    expect([BYTES.fits(new Uint8Array(3)), BYTES.fits("abc"), BYTES.fits([1])]).toEqual([true, false, false]);
    expect(BYTES.fits({ length: 3, byteLength: 3 })).toBe(false);
    expect([null, "t", undefined, 7, "t".repeat(65)].map(TOKEN_OR_NULL.fits)).toEqual([
      true,
      true,
      false,
      false,
      false,
    ]);
  });

  it("is a file to export under a name that leads nowhere else, on no system", () => {
    const bytes = new Uint8Array(1);
    const fits = (...names: string[]) => EXPORTS.fits(names.map((name) => ({ name, bytes })));
    expect(fits("01-power.svg", "02-low.svg")).toBe(true);
    const bad = ["../a.svg", "/a.svg", "a\\b.svg", "c:a.svg", ".a.svg", "a.svg\0", "a.exe", "a.svg ", "", "a?.svg"];
    expect(bad.filter((name) => fits(name))).toEqual([]);
    expect(fits("a.svg", "A.SVG")).toBe(false);
    expect(fits()).toBe(false);
    expect(EXPORTS.fits([{ name: "a.svg", bytes: "text" }])).toBe(false);
  });
});

it("the page's address is told by scheme and host together", () => {
  expect([PAGE, "app://bundle/", "app://bundle/x?y"].map(isOurs)).toEqual([true, true, true]);
  const others = [
    "app://bundle.elsewhere/",
    "app://elsewhere/bundle",
    "https://bundle/",
    "file:///bundle",
    "about:blank",
    "",
  ];
  expect(others.filter(isOurs)).toEqual([]);
});
