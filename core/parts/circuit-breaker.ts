/** Circuit-breaker: opens by itself on too much current, and by hand where it has a handle. */
import { makeContact } from "./contact-symbol.ts";
import { definePart } from "./define.ts";
import { POWER_CONTACT } from "./make-element.ts";
import { choice, NO_YES, quantity, yesNo, YES_NO } from "./parameter.ts";
import { terminal } from "./plain-face.ts";
import { drawn, lead, link, pinPair, stroke, view } from "./symbol.ts";

export const circuitBreaker = definePart({
  kind: "circuit-breaker",
  letter: "F",
  title: "Circuit-breaker",
  words: ["breaker", "trip switch", "resettable protection", "cut-out"],
  group: "protection",
  explanation: "A switch that opens by itself when too much current flows, and that can be closed again.",
  parameters: {
    rating: quantity("current", {
      title: "Rating",
      explanation: "The current that it carries for good without tripping.",
      where: "Printed on the handle or the housing.",
      least: 0,
    }),
    voltageDc: quantity("voltage", {
      title: "Voltage, DC",
      explanation: "The highest direct voltage that it can interrupt; an AC figure does not count.",
      where: "Printed on the housing as V DC or V=, for the number of poles that you use.",
      least: 0,
    }),
    interrupting: quantity("current", {
      title: "Interrupting rating",
      explanation: "The highest short-circuit current that it can break without bursting.",
      where: "Printed on the housing (6000 in a frame = 6 kA), or its data sheet.",
      least: 0,
    }),
    polarised: choice(NO_YES, {
      title: "Polarised",
      explanation: "Whether it breaks direct current in one direction only, with line towards the source.",
      where: "Plus and minus or an arrow at the terminals: then it is polarised.",
    }),
    manual: choice(YES_NO, {
      title: "Can be opened by hand",
      explanation: "Whether it also serves as a switch that opens the circuit without electricity.",
      where: "A handle or a push-to-trip button.",
    }),
  },
  terminals: () => [
    terminal("line", "stud", true, "Towards the source"),
    terminal("load", "stud", true, "Towards the load"),
  ],
  supplyPairs: () => [],
  views: () => [
    view(
      "breaker",
      "Circuit-breaker",
      drawn(
        [
          ...makeContact(0, 0),
          // The cross on the fixed side is the mark of a breaker's function in IEC 60617.
          lead(4.2, -0.8, 5.8, 0.8),
          lead(4.2, 0.8, 5.8, -0.8),
          link(7.5, -2, 7.5, -6),
          stroke([
            [6, -6],
            [6, -7.5],
            [9, -7.5],
            [9, -6],
            [6, -6],
          ]),
        ],
        pinPair("line", "load"),
      ),
    ),
  ],
  face: () => ({
    width: 80,
    height: 60,
    terminals: { line: { x: 15, y: 30, stud: "M8" }, load: { x: 65, y: 30, stud: "M8" } },
    plugs: [],
    byDefault: true,
  }),
  circuit: ({ position }) => [
    {
      type: "contact",
      name: "contact",
      a: "line",
      b: "load",
      role: "protection",
      closed: position !== "out",
      movedBy: "control",
      resistance: POWER_CONTACT,
    },
  ],
  control: { positions: () => ["out", "in"], at: (condition) => condition.disconnect, flip: false },
  limits: () => [],
  contacts: (values) => [
    {
      element: "contact",
      a: "line",
      b: "load",
      voltage: values.number("voltageDc"),
      continuous: values.number("rating"),
      make: values.number("interrupting"),
      breaking: values.number("interrupting"),
      voltageParameter: "voltageDc",
      continuousParameter: "rating",
      makeParameter: "interrupting",
      breakingParameter: "interrupting",
      polarised: yesNo(values.choice("polarised")),
    },
  ],
  traits: { device: "breaker" },
  notes: [
    "Closed in every state in which the disconnect is in.",
    "Without a stated curve it counts as a device, and how fast it trips is not checked.",
  ],
});
