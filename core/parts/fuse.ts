/** Fuse: the weakest link by design. Rating, voltage and interrupting rating decide whether it protects at all. */
import type { Ohm, Volt } from "../quantity/kinds.ts";
import { definePart, type TerminalSpec, type Values } from "./define.ts";
import { choice, quantity } from "./parameter.ts";
import { terminal } from "./plain-face.ts";
import { drawn, lead, pinPair, rectangle, view } from "./symbol.ts";

/** A fuse drops about 0.1 V at its rating when cold (common practice, no source). */
const COLD_DROP: Volt = 0.1;
/** Of a fuse without a stated rating, when solving: that of a 100 A fuse. */
const ASSUMED_RESISTANCE: Ohm = 1e-3;

const isBolted = (values: Values): boolean => !["blade", "glass"].includes(values.choice("curve") ?? "");

const terminals = (values: Values): readonly TerminalSpec[] =>
  ["1", "2"].map((id) => terminal(id, isBolted(values) ? "stud" : "tab", true, `End ${id}`));

export const fuse = definePart({
  kind: "fuse",
  letter: "F",
  title: "Fuse",
  words: ["main fuse", "fuse link", "fuse holder", "protection", "blade fuse"],
  group: "protection",
  explanation: "Melts when too much current flows, before the wire behind it burns. It belongs close to the source.",
  parameters: {
    rating: quantity("current", {
      title: "Rating",
      explanation: "The current that the fuse carries for good; the wire behind it must carry at least as much.",
      where: "Printed on the fuse.",
      least: 0,
    }),
    voltageDc: quantity("voltage", {
      title: "Voltage, DC",
      explanation: "The highest direct voltage that the fuse can interrupt; above it the arc inside goes on burning.",
      where: "Printed on the fuse as V DC or V=; a number with AC or ~ does not count.",
      least: 0,
    }),
    voltageAc: quantity("voltage", {
      title: "Voltage, AC",
      explanation: "The highest alternating voltage; it says nothing about direct current, which is harder to break.",
      where: "Printed on the fuse as V AC or V~.",
      least: 0,
    }),
    interrupting: quantity("current", {
      title: "Interrupting rating",
      explanation: "The highest short-circuit current that it can break without bursting.",
      where: "Data sheet, often printed as IR, AIC, or breaking capacity in kA.",
      least: 0,
    }),
    curve: choice(["blade", "bolted-strip", "traction-gR", "semiconductor-aR", "glass"], {
      title: "Class",
      explanation:
        "The make of the fuse, which decides how fast it clears; aR fuses protect against short circuits only.",
      where: "Shape and print: two blades, a strip with two holes, a square body with gR or aR, a glass tube.",
    }),
    curvePoints: {
      title: "Time-current curve",
      explanation:
        "How long it takes to clear at several multiples of its rating; without it only class limits are used.",
      where: "The curve in the data sheet: read off a few points, such as 2:100 s; 5:0.5 s.",
      curve: true,
    },
    holderRating: quantity("current", {
      title: "Holder rating",
      explanation: "The current that the fuse holder carries for good.",
      where: "Printed on the holder, or its data sheet.",
      least: 0,
    }),
  },
  terminals,
  supplyPairs: () => [],
  views: () => [view("fuse", "Fuse", drawn([lead(0, 0, 15, 0), rectangle(3.75, -1.25, 7.5, 2.5)], pinPair("1", "2")))],
  face: (values) =>
    isBolted(values)
      ? {
          width: 95,
          height: 30,
          terminals: { "1": { x: 10, y: 15, stud: "M8" }, "2": { x: 85, y: 15, stud: "M8" } },
          plugs: [],
          byDefault: true,
        }
      : {
          width: 40,
          height: 20,
          terminals: { "1": { x: 10, y: 10 }, "2": { x: 30, y: 10 } },
          plugs: [],
          byDefault: true,
        },
  circuit: ({ values }) => {
    const rating = values.number("rating");
    return [
      {
        type: "contact",
        name: "link",
        a: "1",
        b: "2",
        role: "protection",
        closed: true,
        movedBy: "none",
        resistance: rating !== undefined && rating > 0 ? COLD_DROP / rating : ASSUMED_RESISTANCE,
      },
    ];
  },
  limits: () => [],
  traits: { device: "fuse" },
  notes: [
    "Cold resistance: 0.1 V divided by the rating (common practice, no source); 1 mohm where the rating is unstated.",
    "Its voltage and interrupting rating are judged by the checks on protection, not as plain limits.",
  ],
});
