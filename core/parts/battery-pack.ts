/** Battery pack: a whole string in one box, jumpers and fuse included. */
import type { Volt } from "../quantity/kinds.ts";
import {
  BATTERY_NOTES,
  batteryEmf,
  batteryLeaks,
  batteryLimits,
  batteryParameters,
  batteryResistance,
} from "./battery-cells.ts";
import { definePart, type Values } from "./define.ts";
import { countOf, quantity } from "./parameter.ts";
import { terminal } from "./plain-face.ts";
import { drawn, lead, link, pinPair, plusMark, rectangle, view } from "./symbol.ts";

/** A fuse drops about 0.1 V at its rating when cold (common practice, no source). */
const FUSE_DROP: Volt = 0.1;

const cellsOf = (values: Values): number => Math.max(1, countOf(values.number("cells"), 6));
const blocksOf = (values: Values): number => Math.max(1, countOf(values.number("blocks"), 1));

/** Resistance of the whole string: each block's and a jumper between every two. */
function stringResistance(values: Values) {
  const { resistance, range } = batteryResistance(values, cellsOf(values));
  const blocks = blocksOf(values);
  const jumpers = (blocks - 1) * (values.number("jumperResistance") ?? 0.1e-3);
  return {
    resistance: blocks * resistance + jumpers,
    ...(range === undefined
      ? {}
      : { range: [blocks * range[0] + jumpers, blocks * range[1] + jumpers] as readonly [number, number] }),
  };
}

export const batteryPack = definePart({
  kind: "battery-pack",
  letter: "G",
  title: "Battery pack",
  words: ["traction battery", "pack", "battery box", "string", "salvaged pack"],
  group: "sources",
  explanation: "A whole string of blocks in one box, drawn as one part with its two ends.",
  parameters: {
    ...batteryParameters,
    blocks: quantity("count", {
      title: "Blocks in series",
      explanation: "How many blocks of so many cells are in the string.",
      where: "Count them; or pack voltage divided by the block's.",
      least: 1,
      most: 400,
      whole: true,
    }),
    jumperResistance: quantity("resistance", {
      title: "Jumper resistance",
      explanation: "Resistance of each jumper between two blocks, with its joints.",
      where: "Measured with a milliohm meter, or from length and size.",
      default: "0.1 mohm",
      least: 0,
    }),
    internalFuseRating: quantity("current", {
      title: "Fuse inside, rating",
      explanation: "The rating of the fuse inside the box; unstated counts as no fuse.",
      where: "Printed on the fuse, or the pack's papers.",
      least: 0,
    }),
    internalFuseVoltage: quantity("voltage", {
      title: "Fuse inside, voltage",
      explanation: "The highest direct voltage that the fuse inside can interrupt.",
      where: "Printed on the fuse as V DC.",
      least: 0,
    }),
  },
  terminals: () => [terminal("+", "stud", true, "Plus end"), terminal("-", "stud", true, "Minus end")],
  supplyPairs: () => [],
  views: () => [
    view(
      "pack",
      "Battery pack",
      drawn(
        [
          rectangle(2.5, -7.5, 20, 15),
          lead(0, 0, 6, 0),
          lead(6, -5, 6, 5),
          rectangle(7, -2.5, 0.6, 5, "ink"),
          link(7.6, 0, 17.4, 0),
          lead(17.4, -5, 17.4, 5),
          rectangle(18.4, -2.5, 0.6, 5, "ink"),
          lead(19, 0, 25, 0),
          ...plusMark(4.2, -2),
        ],
        pinPair("+", "-", 25),
      ),
    ),
  ],
  face: () => ({
    width: 600,
    height: 400,
    terminals: { "+": { x: 40, y: 30, stud: "M8" }, "-": { x: 560, y: 30, stud: "M8" } },
    plugs: [],
    byDefault: true,
  }),
  circuit: (context) => {
    const { values } = context;
    const rating = values.number("internalFuseRating");
    const fused = rating !== undefined && rating > 0;
    return [
      {
        type: "source",
        name: "emf",
        a: fused ? ":behind-fuse" : "+",
        b: "-",
        role: "source",
        emf: batteryEmf(context, cellsOf(values) * blocksOf(values)),
        ...stringResistance(values),
        storage: true,
      },
      ...(fused
        ? [
            {
              type: "contact" as const,
              name: "fuse",
              a: ":behind-fuse",
              b: "+",
              role: "protection" as const,
              closed: true,
              movedBy: "none" as const,
              resistance: FUSE_DROP / rating,
            },
          ]
        : []),
      ...batteryLeaks(values),
    ];
  },
  limits: batteryLimits,
  traits: { battery: true },
  notes: [
    ...BATTERY_NOTES,
    "Cells, capacity and resistance are those of one block. Blocks unstated: solved as one.",
    "Without a rating of the fuse inside there is none when solving.",
  ],
});
