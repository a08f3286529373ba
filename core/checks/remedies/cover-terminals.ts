/** Boots over bare terminals. */
import type { NetworkPart } from "../../network/network.ts";
import { setParameter } from "../../project/commands/set-parameter.ts";
import type { Remedy } from "../define.ts";
import { remedy } from "./edit.ts";

export interface Bare {
  readonly part: NetworkPart;
  readonly terminal: string;
}

/** More than these are not named one by one. */
const NAMED = 3;

/** Pins of a connector take no boots. */
export function fitBoots(bare: readonly Bare[]): readonly Remedy[] {
  if (bare.length === 0 || bare.some(({ part }) => part.kind.traits.connector === true)) return [];
  const names = bare.map(({ part, terminal }) => `${part.part.designation}:${terminal}`);
  const label =
    names.length === 1
      ? `Fit a boot at ${names.join("")}`
      : `Fit boots at ${names.length > NAMED ? `${names.length} terminals` : names.join(", ")}`;
  const changes = bare.map(({ part, terminal }) => ({
    part: part.part.id,
    name: `finish-${terminal}`,
    value: "booted",
  }));
  return [remedy("fit-boots", label, (edit) => edit.run(setParameter, { changes }))];
}

/** Of each pair one, the terminals first that are in most pairs. */
export function oneOfEach(pairs: readonly (readonly [Bare, Bare])[]): readonly Bare[] {
  const key = ({ part, terminal }: Bare): string => `${part.part.id}:${terminal}`;
  const chosen: Bare[] = [];
  let left = pairs;
  while (left.length > 0) {
    const counts = new Map<string, { readonly bare: Bare; count: number }>();
    for (const bare of left.flat()) {
      const known = counts.get(key(bare)) ?? { bare, count: 0 };
      counts.set(key(bare), { ...known, count: known.count + 1 });
    }
    const [most] = [...counts.values()].sort((a, b) => b.count - a.count);
    if (most === undefined) break;
    chosen.push(most.bare);
    left = left.filter((pair) => !pair.some((bare) => key(bare) === key(most.bare)));
  }
  return chosen;
}
