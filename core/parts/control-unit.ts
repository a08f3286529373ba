/** Control unit: a small programmable box whose outputs follow its inputs, the operating state and sensed volts. */
import {
  definePart,
  type InTime,
  type ParameterSpec,
  type PartContext,
  type PartState,
  type Sensed,
  type Values,
} from "./define.ts";
import type { Second } from "../quantity/kinds.ts";
import type { Element } from "./element.ts";
import { holds, readExpression } from "./expression.ts";
import { driver, FED_ABOVE, inputPin, isFed, logicSupply } from "./input-pin.ts";
import { windingLeak } from "./leak.ts";
import { resistance } from "./make-element.ts";
import { choice, countOf, quantity } from "./parameter.ts";
import { plainFace, terminal } from "./plain-face.ts";
import { labelledBox, view } from "./symbol.ts";

/** Shown and wired until the counts are stated. */
const ASSUMED_PINS = 8;
const MOST_PINS = 32;
/** Serial inputs (common practice, no source). */
const PORT_INPUT = 10_000;

const inputsOf = (values: Values): readonly string[] => pins("in", values.number("inputs"));
const outputsOf = (values: Values): readonly string[] => pins("out", values.number("outputs"));

function pins(stem: string, count: number | undefined): readonly string[] {
  const number = Math.min(countOf(count, ASSUMED_PINS), MOST_PINS);
  return Array.from({ length: number }, (_, place) => `${stem}-${String(place + 1)}`);
}

const followParameters: Readonly<Record<string, ParameterSpec>> = Object.fromEntries(
  pins("out", MOST_PINS).map((output) => [
    `${output}-follows`,
    {
      title: `Output ${output.slice(4)} follows`,
      explanation: "When this output is on: states, inputs and sensed volts, as in: driving and in-1.",
      where: "The program or the settings of the unit.",
      text: true,
      refuse: (text: string) => {
        const reading = readExpression(text);
        return reading.ok ? undefined : reading.why;
      },
    } satisfies ParameterSpec,
  ]),
);

const terminals = (values: Values) => [
  terminal("supply+", "pin", true, "Supply, plus"),
  terminal("supply-", "pin", true, "Supply, minus"),
  ...inputsOf(values).map((id) => terminal(id, "pin", false, `Input ${id.slice(3)}`, "inputs")),
  ...outputsOf(values).map((id) => terminal(id, "pin", false, `Output ${id.slice(4)}`, "outputs")),
  terminal("serial-tx", "pin", false, "Serial port, sends", "serial"),
  terminal("serial-rx", "pin", false, "Serial port, receives", "serial"),
  terminal("serial-ground", "pin", false, "Serial port, ground", "serial"),
];

function settle({ values, condition, state }: PartContext, sensed: Sensed): PartState {
  const live = sensed.between("supply+", "supply-") > FED_ABOVE;
  const next: Record<string, boolean> = { live };
  for (const output of outputsOf(values)) {
    const text = values.text(`${output}-follows`);
    const reading = text === undefined ? undefined : readExpression(text);
    // The inputs are looked at from the moment on in which the unit is alive.
    next[output] =
      live &&
      state["live"] === true &&
      reading?.ok === true &&
      holds(reading.expression, {
        state: condition.state,
        isFed: (pin) => isFed(sensed.between(pin, "supply-")),
        between: (a, b) => sensed.between(a, b),
      });
  }
  return next;
}

/** One round of its program; and from its getting its supply until that runs (common practice, no source). */
const ROUND: Second = 0.01;
const START_UP: Second = 0.05;

const inTime: InTime = {
  delays: (_, to) =>
    to["live"] === true ? { ...Object.fromEntries(Object.keys(to).map((key) => [key, ROUND])), live: START_UP } : {},
  starting: ({ values, state }, to) => {
    const boot = values.choice("outputBootState");
    if ((boot !== "on" && boot !== "undefined") || state["live"] === true || to["live"] !== true) return undefined;
    const on = Object.fromEntries(outputsOf(values).map((output) => [output, true]));
    return { lasts: START_UP, state: { ...to, ...on } };
  },
};

function circuit({ values, state, wired }: PartContext): readonly Element[] {
  const low = values.choice("outputType") === "low-side";
  return [
    logicSupply("supply+", "supply-", undefined),
    ...inputsOf(values)
      .filter(wired)
      .map((pin) => inputPin(pin, "supply-", values)),
    ...outputsOf(values)
      .filter(wired)
      .map((pin) =>
        low
          ? driver(`${pin}-driver`, pin, "supply-", state[pin] === true)
          : driver(`${pin}-driver`, "supply+", pin, state[pin] === true),
      ),
    ...(["serial-tx", "serial-rx"] as const)
      .filter(wired)
      .map((pin) => resistance(pin, pin, "serial-ground", "sense", PORT_INPUT)),
    ...(wired("serial-ground") ? [windingLeak("leak-serial", "serial-ground")] : []),
  ];
}

export const controlUnit = definePart({
  kind: "control-unit",
  letter: "K",
  title: "Control unit",
  words: ["vehicle control unit", "programmable controller", "sequencer", "module", "logic"],
  group: "drive",
  explanation: "A small computer whose outputs switch relays and contactors by what its inputs and its program say.",
  parameters: {
    inputs: quantity("count", {
      title: "Inputs",
      explanation: "How many inputs it has.",
      where: "Data sheet or its plug's pin list.",
      least: 0,
      most: MOST_PINS,
      whole: true,
    }),
    outputs: quantity("count", {
      title: "Outputs",
      explanation: "How many outputs it has.",
      where: "Data sheet or its plug's pin list.",
      least: 0,
      most: MOST_PINS,
      whole: true,
    }),
    outputType: choice(["high-side", "low-side", "relay"], {
      title: "Output type",
      explanation: "Whether an output gives plus (high-side, relay) or takes to minus (low-side).",
      where: "Data sheet.",
    }),
    outputCurrent: quantity("current", {
      title: "Output current",
      explanation: "The most that each output carries.",
      where: "Data sheet.",
      least: 0,
    }),
    outputBootState: choice(["off", "on", "undefined"], {
      title: "Outputs while starting up",
      explanation: "What the outputs do for the moment before its program runs.",
      where: "Ask the maker, or watch a lamp on the output while switching on.",
    }),
    ...followParameters,
  },
  terminals,
  supplyPairs: () => [{ plus: "supply+", minus: "supply-", polarised: true, direction: "input", main: false }],
  views: (values) => [
    view(
      "unit",
      "Control unit",
      labelledBox(
        ["supply+", "supply-", null, ...inputsOf(values)],
        [...outputsOf(values), null, "serial-tx", "serial-rx", "serial-ground"],
        "Control unit",
      ),
    ),
  ],
  face: (values) => plainFace(terminals(values)),
  circuit,
  initial: () => ({ live: false }),
  settle,
  inTime,
  limits: (values) => {
    const low = values.choice("outputType") === "low-side";
    return outputsOf(values).map((pin) => ({
      parameter: "outputCurrent",
      kind: "current-through",
      a: low ? pin : "supply+",
      b: low ? "supply-" : pin,
      element: `${pin}-driver`,
      value: values.number("outputCurrent"),
    }));
  },
  traits: { load: true },
  notes: [
    "Until the counts are stated it has eight inputs and eight outputs.",
    "An output that follows nothing is off. An input is fed above 5 V against supply-.",
    "Outputs of unstated type are solved as high-side. Unstated: supply current 50 mA, inputs 100 kohm.",
  ],
});
