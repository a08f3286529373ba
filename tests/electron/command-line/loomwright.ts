/** Runs the command line as a person would: its own process, a folder of its own, nothing shared. */
import { spawnSync } from "node:child_process";
import * as fs from "node:fs";
import * as os from "node:os";
import * as path from "node:path";
import { buildCommandLine } from "../../../electron/command-line/build.mjs";
import { writeProject } from "../../../core/project/write.ts";
import { ROOT } from "../../architecture/stage.mjs";
import { drawing } from "../../harness/drawing.ts";

export interface Run {
  readonly status: number | null;
  readonly stdout: string;
  readonly stderr: string;
  readonly seconds: number;
}

/** Builds once, so that no test pays for it and notes about building stay out of what is compared. */
export async function built(): Promise<void> {
  await buildCommandLine(() => undefined);
}

/** @param user another user's id to run as, for what an administrator is allowed anyway */
export function loomwright(words: readonly string[], folder: string, user?: number): Run {
  const begun = process.hrtime.bigint();
  const run = spawnSync(process.execPath, [path.join(ROOT, "electron/command-line/launch.mjs"), ...words], {
    cwd: folder,
    encoding: "utf8",
    timeout: 20_000,
    maxBuffer: 64e6,
    ...(user === undefined ? {} : { uid: user, gid: user }),
  });
  const seconds = Number(process.hrtime.bigint() - begun) / 1e9;
  // While somebody edits the sources, any call may have to build first; it says so, and that is not what is tested.
  const stderr = run.stderr.replace(/^Building the command line \.\.\.\n/, "");
  return { status: run.status, stdout: run.stdout, stderr, seconds };
}

/** A new empty folder, removed by `remove`. */
export function scratch(): {
  readonly folder: string;
  file(name: string, content: string | Uint8Array): string;
  remove(): void;
} {
  const folder = fs.mkdtempSync(path.join(os.tmpdir(), "loomwright-"));
  // Others may look in: a test also runs as somebody who owns nothing here.
  fs.chmodSync(folder, 0o755);
  return {
    folder,
    file(name, content) {
      fs.writeFileSync(path.join(folder, name), content);
      return name;
    },
    remove: () => fs.rmSync(folder, { recursive: true, force: true }),
  };
}

/** A utility cart's lamp circuit, as the text of a project file. */
export function lampCircuit(): string {
  const wire = { size: "2.5 mm2", length: "1 m" };
  return writeProject(
    drawing()
      .part("G1", "battery-block", { chemistry: "flooded-lead", cells: "6", capacity: "60 Ah", duty: "auxiliary" })
      .part("F1", "fuse", { rating: "10 A", voltageDc: "32 V" })
      .part("P1", "lamp", { voltage: "12 V", power: "21 W" })
      .wire("G1:+", "F1:1", wire)
      .wire("F1:2", "P1:+", wire)
      .wire("P1:-", "G1:-", wire)
      .build(),
  );
}
