/** A file is replaced whole or not at all, whatever happens meanwhile. */
import { spawnSync } from "node:child_process";
import * as fs from "node:fs";
import * as path from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { atomicSave, sweepTemporaries } from "../../../electron/files/atomic-save.ts";
import { buildSaver, endManyTimes, newFolder } from "./ended-program.ts";

const folder = newFolder();
let saver = "";
beforeAll(async () => {
  saver = await buildSaver(folder);
});
afterAll(() => fs.rmSync(folder, { recursive: true }));

const posix = process.platform !== "win32";

function place(content?: string): string {
  const file = path.join(newFolder(), "tug.loomwright");
  if (content !== undefined) fs.writeFileSync(file, content);
  return file;
}

const beside = (file: string): string[] => fs.readdirSync(path.dirname(file)).sort();
const text = (file: string): string => fs.readFileSync(file, "utf8");

describe("a save", () => {
  it("makes a new file, without a backup", async () => {
    const file = place();
    await atomicSave(file, "one", { backup: true });
    expect(text(file)).toBe("one");
    expect(beside(file)).toEqual(["tug.loomwright"]);
  });

  it("keeps what was there under .bak, the last time's only, and leaves nothing else", async () => {
    const file = place("one");
    await atomicSave(file, "two", { backup: true });
    await atomicSave(file, "three", { backup: true });
    expect([text(file), text(`${file}.bak`)]).toEqual(["three", "two"]);
    expect(beside(file)).toEqual(["tug.loomwright", "tug.loomwright.bak"]);
  });

  it.skipIf(!posix)("keeps a link a link, and the permissions", async () => {
    const file = place("one");
    fs.chmodSync(file, 0o660);
    const link = path.join(newFolder(), "link.loomwright");
    fs.symlinkSync(file, link);
    await atomicSave(link, "two", { backup: true });
    expect(fs.lstatSync(link).isSymbolicLink()).toBe(true);
    expect([text(file), text(`${file}.bak`)]).toEqual(["two", "one"]);
    expect(fs.statSync(file).mode & 0o777).toBe(0o660);
  });

  it("refuses a folder's name and a folder that is gone, in one sentence with the remedy", async () => {
    const file = place();
    fs.mkdirSync(file);
    await expect(atomicSave(file, "x", { backup: true })).rejects.toThrow(
      "tug.loomwright: a folder has that name. Save it under another name.",
    );
    await expect(atomicSave(path.join(file, "no", "a.loomwright"), "x", { backup: true })).rejects.toThrow(
      "a.loomwright: its folder is gone. Save it in another folder.",
    );
    expect(fs.readdirSync(file)).toEqual([]);
  });

  it("leaves a file alone that its owner has protected", async (context) => {
    if (process.getuid?.() === 0) return context.skip("the administrator, who runs this, may write to everything");
    const file = place("one");
    fs.chmodSync(file, 0o444);
    await expect(atomicSave(file, "two", { backup: true })).rejects.toThrow("you may not write there");
    expect(text(file)).toBe("one");
    expect(beside(file)).toEqual(["tug.loomwright"]);
  });
});

describe("a disk that does not take it", () => {
  it.skipIf(!posix)("a limit on the length of files: the old file stays, no temporary one does", () => {
    const file = place("old");
    // 100 blocks of 1 kB (bash): the system refuses the write in its middle with EFBIG.
    const run = spawnSync("bash", [
      "-c",
      `ulimit -f 100; exec "$0" "$1" once "$2" 1000000`,
      process.execPath,
      saver,
      file,
    ]);
    expect(run.stdout.toString()).toBe("tug.loomwright: that disk takes no file so long. Save it on another disk.");
    expect(text(file)).toBe("old");
    expect(beside(file)).toEqual(["tug.loomwright"]);
  });

  /** Mounts a disk of 1 MB inside a namespace of its own, runs the steps there, and forgets it. */
  function onSmallDisk(steps: string): string | undefined {
    const mount = newFolder();
    const words = ["--user", "--map-root-user", "--mount", "bash", "-ec"];
    const script = `mount -t tmpfs -o size=1m none "$2"; echo -n old > "$2/tug.loomwright"; ${steps}`;
    const run = spawnSync("unshare", [...words, script, process.execPath, process.execPath, mount, saver]);
    fs.rmdirSync(mount);
    return run.status === 0 ? run.stdout.toString() : undefined;
  }
  const NO_NAMESPACE = "this system lets nobody mount a small disk of their own (unshare)";
  const LOOK = `echo; cat "$2/tug.loomwright"; echo; ls -A "$2"`;

  it("full: the old file stays, no temporary one does", (context) => {
    const said = onSmallDisk(`"$1" "$3" once "$2/tug.loomwright" 3000000; ${LOOK}`);
    if (said === undefined) return context.skip(NO_NAMESPACE);
    expect(said).toBe(
      "tug.loomwright: the disk is full. Make room on it, or save on another disk.\nold\ntug.loomwright\n",
    );
  });

  it("can only be read: the old file stays", (context) => {
    const said = onSmallDisk(`mount -o remount,ro "$2"; "$1" "$3" once "$2/tug.loomwright" 30; ${LOOK}`);
    if (said === undefined) return context.skip(NO_NAMESPACE);
    expect(said).toBe("tug.loomwright: that place can only be read. Save it on another disk.\nold\ntug.loomwright\n");
  });
});

describe("a program that is ended in the middle of a save", () => {
  // That the test can fail at all is shown by the long run, where plain writing damages files.
  it("20 times (kill -9): no damaged file, no damaged backup", async () => {
    const { damaged, damagedBackups, backups } = await endManyTimes(saver, "whole", 20);
    expect({ damaged, damagedBackups }).toEqual({ damaged: 0, damagedBackups: 0 });
    expect(backups).toBeGreaterThan(0);
  }, 40_000);

  it("leaves temporary files, which are swept once they are old and their program is gone", async () => {
    const file = place("one");
    const gone = spawnSync(process.execPath, ["-e", ""]).pid;
    const name = (pid: number, of = "tug.loomwright") => `.${of}.${pid}.0a1b2c3d.tmp`;
    const names = [name(gone), `${name(gone)}.bak`, name(process.pid), name(gone, "other.loomwright")];
    for (const each of names) fs.writeFileSync(path.join(path.dirname(file), each), "half");
    expect(await sweepTemporaries(file)).toEqual([]);
    const removed = await sweepTemporaries(file, Date.now() + 120_000);
    expect([...removed].sort()).toEqual([name(gone), `${name(gone)}.bak`].sort());
    expect(beside(file)).toEqual([name(process.pid), name(gone, "other.loomwright"), "tug.loomwright"].sort());
  });
});
