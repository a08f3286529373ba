/** Barriers inside parts: two sides that a parameter says are separate, and how each fails when its insulation breaks. */
import type { NetworkPart } from "../network/network.ts";

/** A parameter that says whether two sides of a part are one metal. */
export interface Barrier {
  readonly parameter: string;
  /** The choice that says they are one metal; any other, or none, leaves a barrier that can break. */
  readonly joined: readonly string[];
  readonly sides: readonly [readonly string[], readonly string[]];
  /** Between which terminals it breaks through: from either pole of the side of the pack to the other side's return. */
  readonly breaks: readonly (readonly [string, string])[];
}

const SERIAL = ["serial-ground", "serial-tx", "serial-rx"] as const;
const NOT_ISOLATED = ["no"] as const;

const BARRIERS: readonly Barrier[] = [
  {
    parameter: "isolated",
    joined: NOT_ISOLATED,
    sides: [
      ["in+", "in-"],
      ["out+", "out-"],
    ],
    breaks: [
      ["in-", "out-"],
      ["in+", "out-"],
    ],
  },
  {
    parameter: "isolated",
    joined: NOT_ISOLATED,
    sides: [
      ["supply+", "supply-"],
      ["sense+", "sense-"],
    ],
    breaks: [
      ["sense-", "supply-"],
      ["sense+", "supply-"],
    ],
  },
  {
    parameter: "isolated",
    joined: NOT_ISOLATED,
    sides: [
      ["supply+", "supply-", ...SERIAL],
      ["B-", "P-", "C-", "pack+"],
    ],
    breaks: [
      ["B-", "supply-"],
      ["pack+", "supply-"],
      ["B-", "serial-ground"],
    ],
  },
  {
    parameter: "serialIsolated",
    joined: NOT_ISOLATED,
    sides: [SERIAL, ["B+", "B-"]],
    breaks: [
      ["B-", "serial-ground"],
      ["B+", "serial-ground"],
    ],
  },
  {
    parameter: "logicFeed",
    joined: ["pack-fed", "shared-12v"],
    sides: [["logic-"], ["B+", "B-"]],
    breaks: [
      ["B-", "logic-"],
      ["B+", "logic-"],
    ],
  },
];
/** A display's serial line counts only where it has no measuring side of its own. */
const DISPLAY: Barrier = {
  parameter: "isolated",
  joined: NOT_ISOLATED,
  sides: [["supply+", "supply-"], SERIAL],
  breaks: [["serial-ground", "supply-"]],
};
const CHARGER: Barrier = {
  parameter: "isolated",
  joined: NOT_ISOLATED,
  sides: [
    ["L", "N"],
    ["out+", "out-"],
  ],
  breaks: [
    ["N", "out-"],
    ["N", "out+"],
  ],
};
/** The charger's 12 V side is always separate from what it charges. */
const CHARGER_SUPPLY: Barrier = {
  parameter: "isolated",
  joined: [],
  sides: [
    ["aux+", "aux-"],
    ["out+", "out-"],
  ],
  breaks: [
    ["out-", "aux-"],
    ["out+", "aux-"],
  ],
};

/** The barriers that a part of this kind has, whether stated to hold, to be absent, or not stated. */
export function barriersOf({ kind, nodes }: NetworkPart): readonly Barrier[] {
  if (kind.traits.charger === true) return [CHARGER, CHARGER_SUPPLY];
  const has = (id: string): boolean => nodes.has(id);
  const own = BARRIERS.filter(
    ({ parameter, sides: [a, b] }) => parameter in kind.parameters && a.some(has) && b.some(has),
  );
  return own.length === 0 && "isolated" in kind.parameters ? [DISPLAY] : own;
}
