/** Vehicles to put mistakes into: the sound demos, and as many generated ones as asked for. */
import type { Project } from "../../core/project/document.ts";
import { readAnswers } from "../../core/starter/answers.ts";
import { startDrawing } from "../../core/starter/start.ts";
import { seeded } from "../harness/electrical-networks.ts";

export interface Vehicle {
  readonly name: string;
  readonly project: Project;
}

const LEAD_VOLTS = [36, 48, 60, 72, 84, 96, 108, 120, 144, 168, 192, 216, 240, 288, 336, 384];

/** Answers drawn by a seed: every choice that the starter knows comes up. */
export function answersOf(seed: number): object {
  const random = seeded(seed * 7919);
  const pick = <T>(list: readonly T[]): T => list[Math.floor(random() * list.length)]!;
  const often = (): boolean => random() < 0.7;
  const seldom = (): boolean => random() < 0.35;
  const chemistry = pick(["flooded-lead", "agm-lead", "gel-lead", "lifepo4", "nmc"] as const);
  const lead = chemistry.endsWith("lead");
  const volts = lead ? pick(LEAD_VOLTS) : Math.round(36 + random() * 364);
  const motor = pick(["series", "permanent-magnet", "separately-excited", "ac"] as const);
  return {
    format: "loomwright-answers",
    version: 1,
    vehicle: `Generated vehicle ${seed}`,
    author: "A. Fitter",
    date: "2026-11-25",
    pack: { chemistry, volts, capacity: `${Math.round(60 + random() * 180)} Ah`, strings: seldom() ? 2 : 1 },
    motor,
    current: Math.round(40 + random() * 200),
    logic: volts <= 120 && seldom() ? "pack-fed" : "12-volt",
    converter: often(),
    charger: often(),
    heater: seldom(),
    reversing: motor !== "permanent-magnet" && seldom(),
    shunt: often(),
    gauge: often(),
    isolationMonitor: seldom(),
    sizes: seldom() ? "AWG" : "mm2",
  };
}

export function generated(seed: number): Vehicle {
  const read = readAnswers(JSON.stringify(answersOf(seed)));
  if (!read.ok) throw new Error(`seed ${seed}: ${read.problems.join(" ")}`);
  return { name: `generated ${seed}`, project: startDrawing(read.answers) };
}
