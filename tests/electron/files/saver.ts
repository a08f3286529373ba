/**
 * Run as a program of its own, to be ended in the middle of its work: saves ever-changing documents, each with the hash
 * of the rest in its first line. `saver whole|plain FILE`, or once: `saver once FILE BYTES`; `saver recovery FOLDER ID`.
 */
import { createHash } from "node:crypto";
import { writeFileSync } from "node:fs";
import { atomicSave } from "../../../electron/files/atomic-save.ts";
import { RecoveryStore } from "../../../electron/files/recovery.ts";

function documentText(count: number): string {
  const body = JSON.stringify({ count, filling: String(count % 10).repeat(400_000 + (count % 7) * 50_000) });
  return `${createHash("sha256").update(body).digest("hex")}\n${body}`;
}

async function saveForEver(way: string, file: string): Promise<void> {
  for (let count = 1; ; count += 1) {
    if (way === "whole") await atomicSave(file, documentText(count), { backup: true });
    else writeFileSync(file, documentText(count));
    if (count === 1) process.stdout.write("begun\n");
  }
}

async function saveOnce(file: string, bytes: number): Promise<void> {
  try {
    await atomicSave(file, new Uint8Array(bytes), { backup: true });
    process.stdout.write("saved");
  } catch (cause) {
    process.stdout.write(cause instanceof Error ? cause.message : String(cause));
  }
}

async function setAsideForEver(folder: string, id: string): Promise<void> {
  const store = new RecoveryStore(folder);
  for (let count = 1; ; count += 1) {
    await store.write(id, "yard tug.loomwright", documentText(count), new Date("2026-11-25T08:00:00Z"));
    if (count === 1) process.stdout.write("begun\n");
  }
}

const [, , way = "", place = "", more = ""] = process.argv;
if (way === "once") await saveOnce(place, Number(more));
else if (way === "recovery") await setAsideForEver(place, more);
else await saveForEver(way, place);
