/** Tokens, changes by somebody else, saves one after the other, and what is kept in the program's own folder. */
import * as fs from "node:fs";
import * as path from "node:path";
import { afterEach, describe, expect, it } from "vitest";
import { LIMITS } from "../../../core/project/limits.ts";
import { ChangeWatch } from "../../../electron/files/change-watch.ts";
import { FileTokens } from "../../../electron/files/file-tokens.ts";
import { PreferencesFile } from "../../../electron/files/preferences.ts";
import { RecentFiles } from "../../../electron/files/recent-files.ts";
import { RecoveryStore } from "../../../electron/files/recovery.ts";
import { SaveQueue } from "../../../electron/files/save-queue.ts";
import { buildSaver, endInTheMiddle, newFolder, whole } from "./ended-program.ts";

const bytesOf = (text: string): Uint8Array => new TextEncoder().encode(text);
const ID = "3f8e1c52-7a90-4b1d-9c36-0d2f4e5a6b7c";
const OTHER_ID = "11111111-2222-4333-8444-555555555555";

function drawing(content: string): string {
  const file = path.join(newFolder(), "tug.loomwright");
  fs.writeFileSync(file, content);
  return file;
}

describe("tokens", () => {
  it("say nothing of the path, and are the same for the same file", async () => {
    const tokens = new FileTokens();
    const file = drawing("one");
    const { token, name, place } = await tokens.grant(file);
    expect(token).toMatch(/^[0-9a-f-]{36}$/);
    expect(name).toBe("tug.loomwright");
    expect(place).toBe(fs.realpathSync(path.dirname(file)));
    const roundabout = path.join(path.dirname(file), "..", path.basename(path.dirname(file)), "tug.loomwright");
    expect((await tokens.grant(roundabout)).token).toBe(token);
    expect((await tokens.grant(drawing("two"))).token).not.toBe(token);
  });

  it.skipIf(process.platform === "win32")(
    "stay the same for a file that is new, once it is written, also in a linked folder",
    async () => {
      const tokens = new FileTokens();
      const folder = newFolder();
      const link = path.join(newFolder(), "linked");
      fs.symlinkSync(folder, link);
      const { token } = await tokens.grant(path.join(link, "new.loomwright"));
      fs.writeFileSync(path.join(folder, "new.loomwright"), "one");
      expect((await tokens.grant(path.join(link, "new.loomwright"))).token).toBe(token);
      expect((await tokens.grant(path.join(folder, "new.loomwright"))).token).toBe(token);
    },
  );

  it("that were never given out reach nothing", async () => {
    const tokens = new FileTokens();
    const decoy = drawing("untouched");
    expect(tokens.pathOf(decoy)).toBeUndefined();
    await expect(tokens.read(decoy)).rejects.toThrow("This drawing has no file here yet.");
  });

  it("refuse folders, pipes, files that are gone or too long before reading them", async () => {
    const tokens = new FileTokens();
    const folder = newFolder();
    const read = async (file: string) => tokens.read((await tokens.grant(file)).token);
    await expect(read(folder)).rejects.toThrow("it is a folder. Name a file in it.");
    await expect(read(path.join(folder, "no.loomwright"))).rejects.toThrow("no.loomwright: there is no such file");
    const long = path.join(folder, "long.loomwright");
    fs.closeSync(fs.openSync(long, "w"));
    fs.truncateSync(long, LIMITS.bytes + 1);
    await expect(read(long)).rejects.toThrow(/^long.loomwright: The file is 21 MB long; .* at most 20 MB\. Choose/);
    if (process.platform === "linux") await expect(read("/dev/null")).rejects.toThrow("it is a device or a pipe");
  });
});

describe("a change by somebody else", () => {
  it("counts by what the file holds, not by its time alone", async () => {
    const tokens = new FileTokens();
    const file = drawing("one");
    const { token } = await tokens.grant(file);
    expect(await tokens.changed(token)).toBe(false);
    await tokens.read(token);
    fs.utimesSync(file, new Date(), new Date(Date.now() + 5000));
    expect(await tokens.changed(token)).toBe(false);
    fs.writeFileSync(file, "two");
    expect(await tokens.changed(token)).toBe(true);
    fs.writeFileSync(file, "mine");
    await tokens.wrote(token, bytesOf("mine"));
    expect(await tokens.changed(token)).toBe(false);
    fs.rmSync(file);
    expect(await tokens.changed(token)).toBe(false);
  });

  it("with length and time as they were is still seen before saving over it", async () => {
    const tokens = new FileTokens();
    const file = drawing("one");
    const { token } = await tokens.grant(file);
    await tokens.read(token);
    const { atime, mtime } = fs.statSync(file);
    fs.writeFileSync(file, "two");
    fs.utimesSync(file, atime, mtime);
    expect(await tokens.changed(token)).toBe(true);
  });

  it("is told of once, and again when it changes again", async () => {
    const tokens = new FileTokens();
    const told: string[] = [];
    const watch = new ChangeWatch(tokens, (token) => told.push(token));
    const file = drawing("one");
    const { token } = await tokens.grant(file);
    await tokens.read(token);
    watch.turnTo(token);
    try {
      await watch.look();
      expect(told).toEqual([]);
      fs.writeFileSync(file, "longer");
      await watch.look();
      await watch.look();
      expect(told).toEqual([token]);
      fs.writeFileSync(file, "longer still");
      await watch.look();
      expect(told).toEqual([token, token]);
    } finally {
      watch.stop();
    }
  });
});

describe("saves of one document", () => {
  it("run one after the other; the newest takes the place of one that waits", async () => {
    const queue = new SaveQueue<string>();
    const done: string[] = [];
    let running = 0;
    const save = (key: string, content: string) =>
      queue.save(key, async () => {
        running += 1;
        expect(running).toBe(1);
        await new Promise((resolve) => setTimeout(resolve, 5));
        running -= 1;
        done.push(content);
        return content;
      });
    const results = await Promise.all([save("a", "one"), save("a", "two"), save("a", "three")]);
    expect(results).toEqual(["one", "three", "three"]);
    expect(await save("a", "four")).toBe("four");
    expect(done).toEqual(["one", "three", "four"]);
  });

  it("that fail hold up neither the next nor another document", async () => {
    const queue = new SaveQueue<string>();
    const failing = queue.save("a", () => Promise.reject(new Error("full")));
    const next = queue.save("a", () => Promise.resolve("kept"));
    const other = queue.save("b", () => Promise.resolve("other"));
    await expect(failing).rejects.toThrow("full");
    expect(await Promise.all([next, other])).toEqual(["kept", "other"]);
  });
});

describe("unsaved work set aside", () => {
  it("is offered when the program that did it was ended (kill -9), whole", async () => {
    const folder = newFolder();
    const saver = await buildSaver(folder);
    const place = path.join(folder, "recovery");
    await endInTheMiddle(saver, ["recovery", place, ID], 20);
    const [left, ...more] = await new RecoveryStore(place).list();
    expect(more).toEqual([]);
    expect({ ...left, text: "" }).toEqual({
      id: ID,
      name: "yard tug.loomwright",
      savedAt: "2026-11-25T08:00:00.000Z",
      text: "",
    });
    expect(whole(left?.text ?? "")).toBe(true);
  }, 20_000);

  it("is not offered to the window that does it, until its page is loaded anew", async () => {
    const store = new RecoveryStore(path.join(newFolder(), "recovery"));
    await store.write(ID, "a", "text");
    expect(await store.list()).toEqual([]);
    store.disown();
    expect((await store.list()).map(({ id }) => id)).toEqual([ID]);
    await store.drop(ID);
    expect(await store.list()).toEqual([]);
  });

  it("is given up with the window's other work, and only that", async () => {
    const store = new RecoveryStore(path.join(newFolder(), "recovery"));
    await store.write(OTHER_ID, "left behind", "text", new Date("2026-11-24T08:00:00Z"));
    store.disown();
    await store.write(ID, "mine", "text");
    await store.dropOwned();
    store.disown();
    expect((await store.list()).map(({ name }) => name)).toEqual(["left behind"]);
  });

  it("has no name that leads elsewhere, and a damaged one is left alone", async () => {
    const folder = newFolder();
    const store = new RecoveryStore(path.join(folder, "recovery"));
    expect(() => store.write("../decoy", "a", "text")).toThrow("a name that no file can have");
    expect(() => store.drop(`../${ID}`)).toThrow("a name that no file can have");
    expect(fs.readdirSync(folder)).toEqual([]);
    fs.mkdirSync(path.join(folder, "recovery"));
    fs.writeFileSync(path.join(folder, "recovery", `${ID}.json`), '{"name": "half');
    expect(await store.list()).toEqual([]);
    expect(fs.readdirSync(path.join(folder, "recovery"))).toEqual([`${ID}.json`]);
  });
});

describe("the program's own files", () => {
  const folder = newFolder();
  afterEach(() => fs.rmSync(path.join(folder, "recent.json"), { force: true }));

  it("list the last eight drawings, the newest first, each once", async () => {
    const recent = new RecentFiles(path.join(folder, "recent.json"));
    expect(await recent.paths()).toEqual([]);
    const files = Array.from({ length: 10 }, (_, index) => path.resolve(folder, `${index}.loomwright`));
    await Promise.all(files.map((file) => recent.add(file)));
    await recent.add(files[4] ?? "");
    const names = (await recent.paths()).map((file) => path.basename(file, ".loomwright"));
    expect(names).toEqual(["4", "9", "8", "7", "6", "5", "3", "2"]);
  });

  it("that were damaged, or hold what is no path, are taken as empty", async () => {
    const file = path.join(folder, "recent.json");
    const recent = new RecentFiles(file);
    fs.writeFileSync(file, "[1");
    expect(await recent.paths()).toEqual([]);
    fs.writeFileSync(file, JSON.stringify({ paths: ["relative", 7, path.resolve("/a")] }));
    expect(await recent.paths()).toEqual([path.resolve("/a")]);
  });

  it("keep the preferences as they were given", async () => {
    const preferences = new PreferencesFile(path.join(folder, "preferences.json"));
    expect(await preferences.load()).toBeNull();
    void preferences.save('{"units":"mm2"}');
    await preferences.save('{"units":"awg"}');
    expect(await preferences.load()).toBe('{"units":"awg"}');
  });
});
