/** Exchanges a fuse or breaker for one of other ratings; a class of fuse that is not made for them goes with it. */
import { setParameter } from "../../project/commands/set-parameter.ts";
import type { Ampere, Volt } from "../../quantity/kinds.ts";
import { plainNumber } from "../../quantity/print.ts";
import { FUSE_CLASSES } from "../../standards/fuse-classes.ts";
import type { FuseClass } from "../../standards/fuse-times.ts";
import { chooseFuse } from "../../studies/fuse-choice.ts";
import type { Device } from "../../studies/words/devices.ts";
import type { Remedy } from "../define.ts";
import { remedy } from "./edit.ts";

export interface Ratings {
  readonly rating?: Ampere;
  readonly voltageDc?: Volt;
  readonly interrupting?: Ampere;
  readonly curve?: FuseClass;
}

/** "61 V": rounded up to two figures, or to whole units. */
export function atLeast(value: number, unit: "V" | "A" | "W" | "J"): string {
  const step = Math.max(1, 10 ** (Math.floor(Math.log10(Math.max(1, value))) - 1));
  return `${plainNumber(Math.ceil(value / step - 1e-9) * step)} ${unit}`;
}

/** `which` completes the label: "Fit a fuse OF 80 A for F1". Not offered for the fuse inside a pack, which is its maker's. */
export function exchangeDevice(id: string, device: Device, ratings: Ratings, which: string): readonly Remedy[] {
  if (device.inside) return [];
  const { rating, voltageDc, interrupting } = ratings;
  const { part, values } = device.part;
  const stated = values.choice("curve") as FuseClass | undefined;
  const curve = ratings.curve ?? classFor(device, ratings);
  const figures: Readonly<Record<string, string | undefined>> = {
    ...(rating === undefined ? {} : { rating: `${rating} A` }),
    ...(voltageDc === undefined ? {} : { voltageDc: atLeast(voltageDc, "V") }),
    ...(interrupting === undefined ? {} : { interrupting: atLeast(interrupting, "A") }),
    // The old curve is that of the old class.
    ...(curve === stated ? {} : { curve, curvePoints: undefined }),
  };
  const changes = Object.entries(figures).map(([name, value]) => ({ part: part.id, name, value }));
  const label = `Fit a ${device.part.kind.title.toLowerCase()} ${which} for ${part.designation}`;
  return [remedy(id, label, (edit) => edit.run(setParameter, { changes }))];
}

function classFor({ part: { values }, rating }: Device, wanted: Ratings): FuseClass | undefined {
  const stated = values.choice("curve") as FuseClass | undefined;
  const limits = FUSE_CLASSES.find(({ fuseClass }) => fuseClass === stated);
  if (limits === undefined) return stated;
  const highest = wanted.voltageDc ?? 0;
  const prospective = wanted.interrupting ?? 0;
  if (highest <= (limits.volts ?? Infinity) && prospective <= (limits.interrupting ?? Infinity)) return stated;
  return chooseFuse({ continuous: rating, nominal: highest, highest, prospective, cable: undefined }).answer.fuseClass;
}
