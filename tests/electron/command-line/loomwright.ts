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

/**
 * A yard tug's 48 V drive, as the text of a project file: pack, fuse, contactor with its coil and diode, controller,
 * series motor, throttle, key and chassis. It has most sorts of element in it, for files that are almost right.
 */
export function driveCircuit(): string {
  const power = { size: "50 mm2", length: "0.5 m" };
  const control = { size: "1 mm2", length: "1.5 m" };
  return writeProject(
    drawing()
      .part("G1", "battery-pack", { blocks: "4", chemistry: "flooded-lead", capacity: "200 Ah", duty: "traction" })
      .part("F1", "fuse", { rating: "250 A", voltageDc: "80 V" })
      .part("Q1", "contactor", { coilVoltage: "48 V", coilPower: "15 W" })
      .part("R1", "diode", {})
      .part("T1", "dc-controller", { logicFeed: "pack-fed", inputCapacitance: "8000 uF", currentMax: "300 A" })
      .part("M1", "motor-series", { armatureResistance: "20 mohm", fieldResistance: "15 mohm" })
      .part("B1", "throttle-two-wire", {})
      .part("S1", "key-switch", {})
      .part("X1", "chassis-point", { structure: "body" })
      .wires(power, "G1:+ - F1:1", "F1:2 - Q1:line", "Q1:load - T1:B+", "T1:B- - G1:-")
      .wires(power, "Q1:load - M1:A1", "M1:A2 - M1:S1", "M1:S2 - T1:M-")
      .wires(control, "F1:2 - S1:battery", "S1:ignition - T1:logic+", "S1:ignition - Q1:coil+")
      .wires(
        control,
        "Q1:coil- - T1:B-",
        "R1:anode - Q1:coil-",
        "R1:cathode - Q1:coil+",
        "B1:1 - T1:throttle-1",
        "B1:2 - T1:throttle-2",
        "T1:case - X1:stud",
      )
      .build(),
  );
}
