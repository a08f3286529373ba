/** All sections on a part or wire, in the order in which they are read. */
import type { Analysis } from "../../circuit/analysis.ts";
import { ofDevice } from "./of-device.ts";
import { ofPrecharge } from "./of-precharge.ts";
import { ofReach } from "./of-reach.ts";
import { ofSupply } from "./of-supply.ts";
import { ofWire } from "./of-wire.ts";
import { Wording } from "./worked-out.ts";
import type { WorkedSection } from "./worked-out.ts";

export type WorkedAbout = { readonly part: string } | { readonly wire: string };

/** Nothing for what the drawing does not hold, and for parts on which no study has a word. */
export function* workedOut(analysis: Analysis, about: WorkedAbout): Generator<WorkedSection> {
  const say = new Wording(analysis);
  if ("wire" in about) {
    if (analysis.network.project.wires.some(({ id }) => id === about.wire)) yield* ofWire(say, about.wire);
    return;
  }
  const part = analysis.network.partById.get(about.part);
  if (part === undefined) return;
  yield* ofDevice(say, part);
  yield* ofPrecharge(say, part);
  yield* ofSupply(say, part);
  yield* ofReach(say, part);
}
