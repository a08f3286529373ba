/**
 * The shape of a part kind and `definePart`, the one way to make one. A kind is data plus a few small pure
 * functions; code outside core/parts asks this shape and never compares a kind's name.
 */
import type { Box, DisplayList, Point } from "../geometry/display.ts";
import type { Ampere, Dimension, Millimetre, Ohm, Second, Volt } from "../quantity/kinds.ts";
import type { Condition } from "./condition.ts";
import type { Element } from "./element.ts";

/** One parameter of a kind. No `default`: unstated until someone states it. */
export type ParameterSpec = {
  readonly title: string;
  /** One plain sentence: what it is and what it does to the vehicle. */
  readonly explanation: string;
  /** Where a person finds it: rating plate, data sheet, measurement. */
  readonly where: string;
  readonly default?: string;
  /** A figure of the rating plate or data sheet by which the part is judged, whatever it is by default. */
  readonly rating?: true;
} & (
  | { readonly dimension: Dimension; readonly least?: number; readonly most?: number; readonly whole?: boolean }
  | { readonly choices: readonly string[] }
  /** Either of several dimensions, as another parameter decides: the unit must be written. */
  | { readonly either: readonly Dimension[] }
  /** Free text; `refuse` says in one sentence what is wrong with it, undefined when nothing is. */
  | { readonly text: true; readonly refuse?: (text: string) => string | undefined }
  /** A list of "multiple:seconds" points, `2:100 s; 5:0.5 s`. */
  | { readonly curve: true }
);

/** confirmed = present in the file; default = the kind's; unstated = absent without default; unknown = null in the file. */
export type Statedness = "confirmed" | "default" | "unstated" | "unknown";

/** A part's parameters, read: SI numbers, choices, texts. `undefined` where unstated or unknown. */
export interface Values {
  number(name: string): number | undefined;
  choice(name: string): string | undefined;
  text(name: string): string | undefined;
  stated(name: string): Statedness;
}

export interface TerminalSpec {
  readonly id: string;
  /** The part needs it connected (`*` in the part list). */
  readonly required: boolean;
  /** stud: bolted power terminal; tab: spade or screw; pin: in a plug; lead: flying lead. */
  readonly form: "stud" | "tab" | "pin" | "lead";
  /** Row of a moulded plug or strip, for "neighbouring" (consecutive ids in one row). */
  readonly row?: string;
  readonly title: string;
  /** Optional, yet needed as soon as one of these carries a wire: the other end of a contact, the return of a signal. */
  readonly neededWith?: readonly string[];
  /** Not needed after all while one of these carries a wire: the other throw of a changeover contact. */
  readonly unless?: readonly string[];
  /** The parameter that decides whether it is required, while nobody has stated it. */
  readonly undecided?: string;
}

/** Two terminals that carry a supply into (or out of) the part. */
export interface SupplyPair {
  readonly plus: string;
  readonly minus: string;
  readonly polarised: boolean;
  /** The parameter that would say whether it is polarised, while nobody has stated it (`polarised` is then false). */
  readonly undecided?: string;
  /** input: the part consumes here; output: it delivers (charger, converter). */
  readonly direction: "input" | "output";
  /** Controller B+/B-, motor, converter input: the pair a main contactor must be able to open. */
  readonly main: boolean;
}

/** A rating: the value at these terminals must stay within. `kind` names what is limited. */
export interface Limit {
  readonly parameter: string;
  readonly kind: "voltage-across" | "voltage-least" | "current-through";
  /** voltage: between these two; current: the current of this element. */
  readonly a: string;
  readonly b: string;
  readonly element?: string;
  readonly value: Volt | Ampere | undefined;
}

/** One drawable view of a part (a contactor's contact, its coil). Every terminal lies in exactly one view. */
export interface View {
  readonly id: string;
  readonly title: string;
  readonly symbol: DisplayList;
  /** Keep-out box for routing and overlap, around symbol and pins, before turning. */
  readonly box: Box;
  /** Where wires attach: multiples of 2.5 mm; `side` is the direction in which a wire leaves. */
  readonly pins: readonly {
    readonly terminal: string;
    readonly x: Millimetre;
    readonly y: Millimetre;
    readonly side: "left" | "right" | "up" | "down";
  }[];
  /** Where designation and values are written, and how they grow. */
  readonly label: Point & { readonly anchor: "start" | "middle" | "end" };
}

/** The physical face: where the terminals are on the real thing, mm from its top left corner. */
export interface Face {
  readonly width: Millimetre;
  readonly height: Millimetre;
  readonly terminals: Readonly<Record<string, Point & { readonly stud?: string }>>;
  /** Moulded plugs: pin ids in order. */
  readonly plugs: readonly {
    readonly id: string;
    readonly box: Box;
    readonly pitch: Millimetre;
    readonly pins: readonly string[];
  }[];
  /** True while nobody has stated this part's own face: distances on it are then not checked for creepage. */
  readonly byDefault: boolean;
}

/**
 * What discrete part of a thing is in: contact positions, latches, enables. Compared by value. The key `remark`, where
 * present, holds a sentence that the solved state repeats about the part ("cannot start on this feed").
 */
export type PartState = Readonly<Record<string, string | number | boolean>>;

/** What a part can see of the solved circuit while it settles. */
export interface Sensed {
  /** Volts from b to a (a minus b); 0 if either is not connected to anything. */
  between(a: string, b: string): Volt;
  /** Current through an element of this part, from a to b (a source's current is positive when it delivers). */
  through(element: string): Ampere;
  wired(terminal: string): boolean;
  /** Volts of a terminal to chassis. */
  volts(terminal: string): Volt;
  /**
   * Only in a transition: what a coil of this part pulls with, as the voltage that would drive its present current for
   * good (current times resistance; its sign from a to b). In a steady state that is the voltage across it.
   */
  coilVolts?(element: string): Volt;
}

/** What is told of a change of state in a transition. */
export interface Told {
  readonly what: "pulls-in" | "drops-out" | "starts" | "stops" | "elapses";
  /** The element concerned, where it is one. */
  readonly element?: string;
  readonly value?: number;
  readonly limit?: number;
  readonly unit?: "V" | "A" | "s";
  /** One clause in plain words: "coil 11.4 V above 8.4 V". */
  readonly reason: string;
}

/**
 * How a discrete state moves in time, from `context.state` to `to`. The voltages of a moment lead to a wish (`settle`);
 * each key of the state that the wish changes is carried out after its delay, and not at all if the wish is withdrawn
 * before.
 */
export interface InTime {
  /** By key; a key that is left out changes at once. */
  delays(context: PartContext, to: PartState): Readonly<Record<string, Second>>;
  /** What is told at the moment of the wish, and when it has been carried out. */
  wished?(context: PartContext, to: PartState, sensed: Sensed): Told | undefined;
  done?(context: PartContext, to: PartState): Told | undefined;
  /** What its outputs do while its electronics start up, before its own logic rules; undefined where nothing out of the way. */
  starting?(context: PartContext, to: PartState): { readonly lasts: Second; readonly state: PartState } | undefined;
  /** Parameters whose figures had to be assumed for this. */
  assumed?(values: Values): readonly string[];
}

export interface PartContext {
  readonly values: Values;
  readonly condition: Condition;
  /** Position of this part's control, "" if it has none. */
  readonly position: string;
  readonly state: PartState;
  readonly wired: (terminal: string) => boolean;
  /** Continuous current of the motor on the controller's output, if the network found one. */
  readonly motorCurrent: Ampere | undefined;
  /** What a battery serves, as the network found it where nobody stated it. */
  readonly duty?: "traction" | "auxiliary";
}

export interface PartKind {
  readonly kind: string;
  /** Class letter after IEC 81346-2. */
  readonly letter: string;
  readonly title: string;
  /** Other names in the trade, for the search. */
  readonly words: readonly string[];
  readonly group: "sources" | "protection" | "switching" | "passive" | "drive" | "sensors" | "loads" | "connecting";
  readonly explanation: string;
  readonly parameters: Readonly<Record<string, ParameterSpec>>;
  terminals(values: Values): readonly TerminalSpec[];
  supplyPairs(values: Values): readonly SupplyPair[];
  views(values: Values): readonly View[];
  face(values: Values): Face;
  /** The parts of the circuit in this condition and discrete state. Pure. The list has the same elements, in the same order, in every condition. */
  circuit(context: PartContext): readonly Element[];
  /** A control a person or the vehicle moves: its positions and where it stands in a condition. */
  readonly control?: {
    positions(values: Values): readonly string[];
    at(condition: Condition, values: Values): string;
    /** Two-position controls that are flipped once for shorts and polarity (switch, selector, key ...). */
    readonly flip: boolean;
  };
  /** Discrete state before anything was ever energised. */
  initial?(values: Values): PartState;
  /** The discrete state that these voltages lead to. Iterated by core/circuit to a fixed point. */
  settle?(context: PartContext, sensed: Sensed): PartState;
  /** How that state moves in time; without it every change is carried out at once. */
  readonly inTime?: InTime;
  limits(values: Values): readonly Limit[];
  /** Coils of this kind: for coil checks and labels. */
  readonly coils?: (values: Values) => readonly CoilSpec[];
  /** Contacts of this kind with their ratings. */
  readonly contacts?: (values: Values) => readonly ContactSpec[];
  /** What the part is to the checks; absent means none of these. */
  readonly traits: Traits;
  readonly notes: readonly string[];
}

export interface CoilSpec {
  readonly element: string;
  readonly plus: string;
  readonly minus: string;
  readonly nominal: Volt | undefined;
  readonly least: Volt | undefined;
  readonly most: Volt | undefined;
  readonly pickUp: Volt | undefined;
  readonly dropOut: Volt | undefined;
  readonly resistance: Ohm | undefined;
  readonly suppression: string | undefined;
}

export interface ContactSpec {
  readonly element: string;
  readonly a: string;
  readonly b: string;
  readonly voltage: Volt | undefined;
  readonly continuous: Ampere | undefined;
  readonly make: Ampere | undefined;
  readonly breaking: Ampere | undefined;
  readonly voltageParameter: string;
  readonly continuousParameter: string;
  /** Where making and breaking are rated by fields of their own; left out: by that of the continuous current. */
  readonly makeParameter?: string;
  readonly breakingParameter?: string;
  readonly polarised: boolean | undefined;
}

/** Facts about a kind that checks need and that are not electrical elements. */
export interface Traits {
  /** controller, motor, converter, charger, lamp, pump, heater ...: counts as a load. */
  readonly load?: boolean;
  readonly battery?: boolean;
  readonly controller?: boolean;
  readonly motor?: boolean;
  /** Of a motor: it generates whenever it is turned, as one with permanent magnets does; undefined where nobody stated it. */
  readonly generates?: (values: Values) => boolean | undefined;
  readonly converter?: boolean;
  readonly charger?: boolean;
  readonly inlet?: boolean;
  /** Fuse or circuit-breaker, with its rating parameters. */
  readonly device?: "fuse" | "breaker";
  /** Opens the traction circuit without electricity. */
  readonly disconnect?: boolean;
  readonly emergencyStop?: boolean;
  readonly key?: boolean;
  readonly sensor?: boolean;
  readonly throttle?: boolean;
  /** What a throttle gives: a resistance between two wires, a tap of the supply it is given, a voltage of its own. */
  readonly throttleSignal?: "resistance" | "divider" | "voltage";
  readonly chassisPoint?: boolean;
  readonly connector?: boolean;
  readonly contactor?: boolean;
  readonly monitor?: boolean;
  readonly gauge?: boolean;
}

const FINISH_WHERE = "Look at the terminal: a boot, a cap or a sleeve covers all of its metal, or it does not.";

/** Highest count that a kind without a stated limit is asked for. */
const COUNT_MOST = 32;

const finishOf = (title: string, explanation: string): ParameterSpec => ({
  title,
  explanation,
  where: FINISH_WHERE,
  choices: ["bare", "booted"],
});

/** Values that hold the defaults, changed in one place: enough to ask a kind for its terminals. */
function valuesWith(parameters: PartKind["parameters"], changes: Readonly<Record<string, string>>): Values {
  const text = (name: string): string | undefined =>
    Object.hasOwn(changes, name) ? changes[name] : parameters[name]?.default;
  return {
    number: (name) => {
      const number = Number.parseFloat(text(name) ?? "");
      return Number.isFinite(number) ? number : undefined;
    },
    choice: text,
    text,
    stated: (name) => (Object.hasOwn(changes, name) ? "confirmed" : text(name) === undefined ? "unstated" : "default"),
  };
}

/** Every choice and the largest of every count, one at a time: what may call for further terminals. */
function variants(parameters: PartKind["parameters"]): readonly Values[] {
  const changes: Record<string, string>[] = [{}];
  for (const [name, spec] of Object.entries(parameters)) {
    if ("choices" in spec) changes.push(...spec.choices.map((word) => ({ [name]: word })));
    else if ("dimension" in spec && spec.dimension === "count") {
      changes.push({ [name]: String(spec.most ?? COUNT_MOST) });
    }
  }
  return changes.map((change) => valuesWith(parameters, change));
}

/** Every terminal that the kind can have, whatever its parameters say. */
function everyTerminal(kind: PartKind): readonly string[] {
  const ids = variants(kind.parameters).flatMap((values) => kind.terminals(values).map((terminal) => terminal.id));
  return [...new Set(ids)];
}

const drawsPower = (kind: PartKind): boolean => {
  const values = valuesWith(kind.parameters, {});
  return (
    kind.traits.load === true ||
    kind.coils !== undefined ||
    kind.supplyPairs(values).some((pair) => pair.direction === "input")
  );
};

/** `finish`, `finish-TERMINAL` for each terminal, `alwaysOn` for what draws power. */
function sharedParameters(kind: PartKind): Readonly<Record<string, ParameterSpec>> {
  return {
    ...(drawsPower(kind)
      ? {
          alwaysOn: {
            title: "Always on",
            explanation: "Says that this part is meant to stay supplied while the vehicle is parked.",
            where: "Your own decision.",
            choices: ["no", "yes"],
          },
        }
      : {}),
    finish: finishOf("Finish of the terminals", "Whether the terminals are bare metal or covered by boots."),
    ...Object.fromEntries(
      everyTerminal(kind).map((id) => [
        `finish-${id}`,
        finishOf(`Finish of ${id}`, "Whether this terminal is bare metal or covered by a boot, where it differs."),
      ]),
    ),
  };
}

/**
 * What contradicts itself in a kind with these values, one sentence each; empty when all is well: double ids, a terminal
 * in no view or in two, whatever names no terminal (pin, need, supply pair, limit, coil, contact, plug of the face).
 */
export function contradictions(kind: PartKind, values: Values): readonly string[] {
  const found: string[] = [];
  const ids = kind.terminals(values).map((terminal) => terminal.id);
  const known = new Set(ids);
  if (known.size !== ids.length) found.push(`${kind.kind} has two terminals of one name`);
  const drawn = kind.views(values).flatMap((view) => view.pins.map((pin) => pin.terminal));
  for (const id of ids) {
    const times = drawn.filter((terminal) => terminal === id).length;
    if (times !== 1) found.push(`terminal ${id} of ${kind.kind} lies in ${String(times)} views instead of one`);
    if (!/^[A-Za-z0-9+-]{1,20}$/.test(id)) found.push(`terminal ${id} of ${kind.kind} is not a terminal name`);
  }
  const viewIds = kind.views(values).map((view) => view.id);
  if (new Set(viewIds).size !== viewIds.length) found.push(`${kind.kind} has two views of one name`);
  const face = kind.face(values);
  const named: readonly (readonly [string, readonly string[]])[] = [
    ["a view", drawn],
    [
      "a terminal",
      kind.terminals(values).flatMap(({ neededWith, unless }) => [...(neededWith ?? []), ...(unless ?? [])]),
    ],
    ["a supply pair", kind.supplyPairs(values).flatMap((pair) => [pair.plus, pair.minus])],
    ["a limit", kind.limits(values).flatMap((limit) => [limit.a, limit.b])],
    ["a coil", kind.coils?.(values).flatMap((coil) => [coil.plus, coil.minus]) ?? []],
    ["the face", [...Object.keys(face.terminals), ...face.plugs.flatMap((plug) => plug.pins)]],
  ];
  for (const [what, terminals] of named) {
    for (const id of terminals) {
      if (!known.has(id)) found.push(`${what} of ${kind.kind} names ${id}, which is no terminal of it`);
    }
  }
  return found;
}

/**
 * Makes a kind: adds the parameters that all kinds share and looks for contradictions in it as it stands by default.
 * Throws on one: that is a mistake in the kind's own file.
 */
export function definePart(kind: PartKind): PartKind {
  const found = contradictions(kind, valuesWith(kind.parameters, {}));
  if (found.length > 0) throw new Error(found.join("; "));
  return { ...kind, parameters: { ...kind.parameters, ...sharedParameters(kind) } };
}
