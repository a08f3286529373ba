/** Voltmeter: shows the volts between its two terminals and draws next to nothing. */
import { definePart, type TerminalSpec } from "./define.ts";
import { resistance } from "./make-element.ts";
import { quantity } from "./parameter.ts";
import { plainFace, terminal } from "./plain-face.ts";
import { circleBetweenLeads, drawn, letter, pinPair, view } from "./symbol.ts";

const terminals: readonly TerminalSpec[] = [terminal("+", "tab", true, "Plus"), terminal("-", "tab", true, "Minus")];

export const voltmeter = definePart({
  kind: "voltmeter",
  letter: "P",
  title: "Voltmeter",
  words: ["volt gauge", "panel meter", "pack voltmeter"],
  group: "sensors",
  explanation: "Shows the volts between its two terminals.",
  parameters: {
    rangeMax: quantity("voltage", {
      title: "Range",
      explanation: "The highest voltage that it shows and stands.",
      where: "End of its scale, or its data sheet.",
      least: 0,
    }),
    resistance: quantity("resistance", {
      title: "Input resistance",
      explanation: "Resistance between its terminals.",
      where: "Data sheet; digital meters have 1 to 10 Mohm.",
      default: "1 Mohm",
      least: 1,
    }),
  },
  terminals: () => terminals,
  supplyPairs: () => [],
  views: () => [
    view("main", "Voltmeter", drawn([...circleBetweenLeads(0, 0), letter(7.5, 0, "V", 5)], pinPair("+", "-"))),
  ],
  face: () => plainFace(terminals),
  circuit: ({ values }) => [resistance("meter", "+", "-", "sense", values.number("resistance") ?? 1e6)],
  limits: (values) => [
    { parameter: "rangeMax", kind: "voltage-across", a: "+", b: "-", value: values.number("rangeMax") },
  ],
  traits: { sensor: true },
  notes: [],
});
