/** Programs that are ended without warning in the middle of a save, and what they leave. */
import { createHash } from "node:crypto";
import { spawn } from "node:child_process";
import * as fs from "node:fs";
import * as os from "node:os";
import * as path from "node:path";
import { build } from "esbuild";

export const newFolder = (): string => fs.mkdtempSync(path.join(os.tmpdir(), "loomwright-files-"));

/** Builds the saving program so that plain Node runs it. */
export async function buildSaver(folder: string, source = path.join(import.meta.dirname, "saver.ts")): Promise<string> {
  const outfile = path.join(folder, "saver.mjs");
  await build({
    entryPoints: [source],
    outfile,
    bundle: true,
    platform: "node",
    format: "esm",
    logLevel: "warning",
  });
  return outfile;
}

/** Starts it and kills it (SIGKILL: nothing can be caught or finished) so many milliseconds after its first save. */
export async function endInTheMiddle(saver: string, words: readonly string[], afterMs: number): Promise<void> {
  const child = spawn(process.execPath, [saver, ...words], { stdio: ["ignore", "pipe", "inherit"] });
  const ended = new Promise((resolve) => child.once("exit", resolve));
  await new Promise((resolve) => child.stdout.once("data", resolve));
  await new Promise((resolve) => setTimeout(resolve, afterMs));
  child.kill("SIGKILL");
  await ended;
}

/** Whether the first line is the hash of the rest. */
export function whole(text: string): boolean {
  const end = text.indexOf("\n");
  return (
    end > 0 &&
    createHash("sha256")
      .update(text.slice(end + 1))
      .digest("hex") === text.slice(0, end)
  );
}

/** Spread over the length of a save, never the same twice (7.3 ms steps within 60 ms). */
const moment = (round: number): number => 3 + ((round * 7.3) % 60);

/** @returns how many of the files, and of the backups, were damaged */
export async function endManyTimes(
  saver: string,
  way: "whole" | "plain",
  rounds: number,
): Promise<{ readonly damaged: number; readonly damagedBackups: number; readonly backups: number }> {
  let [damaged, damagedBackups, backups] = [0, 0, 0];
  for (let round = 0; round < rounds; round += 1) {
    const folder = newFolder();
    const file = path.join(folder, "tug.loomwright");
    await endInTheMiddle(saver, [way, file], moment(round));
    if (!fs.existsSync(file) || !whole(fs.readFileSync(file, "utf8"))) damaged += 1;
    if (fs.existsSync(`${file}.bak`)) {
      backups += 1;
      if (!whole(fs.readFileSync(`${file}.bak`, "utf8"))) damagedBackups += 1;
    }
    fs.rmSync(folder, { recursive: true });
  }
  return { damaged, damagedBackups, backups };
}
