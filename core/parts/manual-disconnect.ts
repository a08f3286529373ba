/** Manual disconnect: opens the traction circuit by hand, without electricity. */
import { disconnectorMark, ganged, handOperator, makeContact } from "./contact-symbol.ts";
import { definePart, type TerminalSpec, type Values, type View } from "./define.ts";
import { contact, POWER_CONTACT } from "./make-element.ts";
import { choice, countOf, NO_YES, poles, quantity } from "./parameter.ts";
import { plainFace, terminal } from "./plain-face.ts";
import { drawn, pinPair, view } from "./symbol.ts";
import { together } from "./terminal-needs.ts";

const suffixes = (values: Values): readonly string[] =>
  Array.from({ length: countOf(values.number("poles"), 1) }, (_, pole) => (pole === 0 ? "" : `-${String(pole + 1)}`));

const terminals = (values: Values): readonly TerminalSpec[] =>
  suffixes(values).flatMap((end) =>
    together(
      [
        terminal(`line${end}`, "stud", end === "", "Towards the pack"),
        terminal(`load${end}`, "stud", end === "", "Towards the drive"),
      ],
      [`line${end}`, `load${end}`],
    ),
  );

function views(values: Values): readonly View[] {
  const breaks = values.choice("breakLoad") === "yes";
  const ends = suffixes(values);
  return [
    view(
      "main",
      "Disconnect",
      drawn(
        [
          ...ganged((x, y) => [...makeContact(x, y), ...disconnectorMark(x, y, breaks)], ends.length, 10),
          ...handOperator(),
        ],
        ends.flatMap((end, row) => pinPair(`line${end}`, `load${end}`, 15, row * 10)),
      ),
    ),
  ];
}

/** What it may interrupt: anything (breakLoad yes), nothing (no), or nobody said. */
const breakable = (word: string | undefined): number | undefined =>
  word === undefined ? undefined : word === "yes" ? Number.POSITIVE_INFINITY : 0;

export const manualDisconnect = definePart({
  kind: "manual-disconnect",
  letter: "Q",
  title: "Manual disconnect",
  words: ["isolator", "service disconnect", "battery switch", "kill switch", "maintenance plug", "main switch"],
  group: "switching",
  explanation: "Opens the traction circuit by hand, so that it is dead however the electrics stand.",
  parameters: {
    poles,
    voltageDc: quantity("voltage", {
      title: "Voltage, DC",
      explanation: "The highest direct voltage that it isolates.",
      where: "Rating plate; an AC figure alone says nothing about DC.",
      least: 0,
    }),
    currentContinuous: quantity("current", {
      title: "Continuous current",
      explanation: "The current that it carries for good.",
      where: "Rating plate or data sheet.",
      least: 0,
    }),
    breakLoad: choice(NO_YES, {
      title: "May break load",
      explanation: "Whether it may be opened while current flows; if not, it is pulled only with the vehicle parked.",
      where: "Data sheet: a load-break or switch-disconnector may, a plain disconnector or plug may not.",
    }),
    lockable: choice(NO_YES, {
      title: "Lockable",
      explanation: "Whether a padlock can hold it open while someone works on the vehicle.",
      where: "Look for the hole for a padlock.",
    }),
  },
  terminals,
  supplyPairs: () => [],
  views,
  face: (values) => plainFace(terminals(values)),
  circuit: ({ values, position }) =>
    suffixes(values).map((end) =>
      contact(`contact${end}`, `line${end}`, `load${end}`, position === "in", "control", POWER_CONTACT),
    ),
  control: { positions: () => ["out", "in"], at: (condition) => condition.disconnect, flip: false },
  limits: () => [],
  contacts: (values) =>
    suffixes(values).map((end) => ({
      element: `contact${end}`,
      a: `line${end}`,
      b: `load${end}`,
      voltage: values.number("voltageDc"),
      continuous: values.number("currentContinuous"),
      make: undefined,
      breaking: breakable(values.choice("breakLoad")),
      voltageParameter: "voltageDc",
      continuousParameter: "currentContinuous",
      breakingParameter: "breakLoad",
      polarised: false,
    })),
  traits: { disconnect: true },
  notes: ["One that may break load is taken to break whatever flows: no figure is compared."],
});
