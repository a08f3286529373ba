/** Terminals of the controllers: control pins in the order of the plug, what they are referenced to, faces, views. */
import type { Face, SupplyPair, TerminalSpec, Values, View } from "./define.ts";
import { terminal } from "./plain-face.ts";
import { labelledBox, view, type BoxPin } from "./symbol.ts";
import type { DisplayList } from "../geometry/display.ts";
import { neededBy, together } from "./terminal-needs.ts";

/** Control pins in the order of the plug, pin 1 first. */
const CONTROL_PINS: readonly (readonly [id: string, title: string])[] = [
  ["logic+", "Logic supply, the key-switch pin"],
  ["logic-", "Return of the logic supply"],
  ["pack-sense", "Senses the pack ahead of the contactor"],
  ["throttle-1", "Throttle supply, or first wire of a two-wire throttle"],
  ["throttle-2", "Throttle signal, or second wire of a two-wire throttle"],
  ["throttle-3", "Throttle return"],
  ["contactor-out", "Drives the main contactor's coil"],
  ["precharge-out", "Drives the pre-charge relay's coil"],
  ["interlock", "Must be fed for the drive to work"],
  ["forward", "Fed: forward"],
  ["reverse", "Fed: reverse"],
  ["charge-inhibit", "Closed to a supply or to the return: may drive; left open: must not"],
  ["brake", "Fed: the brake pedal is pressed"],
  ["brake-lamp-out", "Drives the brake lamp while regenerating"],
  ["serial-tx", "Serial port, sends"],
  ["serial-rx", "Serial port, receives"],
  ["serial-ground", "Serial port, ground"],
];

const MOTOR_SENSOR_PINS: readonly (readonly [id: string, title: string])[] = [
  ["encoder-a", "Encoder, track A"],
  ["encoder-b", "Encoder, track B"],
  ["encoder-supply", "Encoder, supply"],
  ["encoder-ground", "Encoder, ground"],
  ["temperature-1", "Motor temperature sensor"],
  ["temperature-2", "Motor temperature sensor"],
];

/** The plug has two rows of ten. */
const ROW = 10;
const PITCH = 2.5;
const PLUG_CENTRE = { x: 160, y: 144 } as const;
const SENSOR_PLUG_CENTRE = { x: 110, y: 144 } as const;

/**
 * What the control pins are referenced to: `B-` when pack-fed or on a shared 12 V, else `logic-`. Where the feed is
 * unstated a wired `logic-` is taken for the reference.
 */
export function referenceOf(values: Values, wired: (terminal: string) => boolean): "B-" | "logic-" {
  const feed = values.choice("logicFeed");
  if (feed === "isolated-12v") return "logic-";
  return feed === undefined && wired("logic-") ? "logic-" : "B-";
}

export function controlTerminals(values: Values): readonly TerminalSpec[] {
  const required = (id: string): boolean =>
    id === "logic+" || (id === "logic-" && values.choice("logicFeed") === "isolated-12v");
  const pins = CONTROL_PINS.map(([id, title], place): TerminalSpec => {
    const pin = terminal(id, "pin", required(id), title, place < ROW ? "plug-row-1" : "plug-row-2");
    return id === "logic-" && values.choice("logicFeed") === undefined ? { ...pin, undecided: "logicFeed" } : pin;
  });
  const inUse = together(pins, throttlePins(values.choice("throttleInput")));
  return values.choice("serialIsolated") === "yes" ? neededBy(inUse, "serial-ground", "serial-tx", "serial-rx") : inUse;
}

/** Pins that the throttle input uses together; a signal from elsewhere may bring its own supply and return. */
function throttlePins(input: string | undefined): readonly string[] {
  if (input === "divider") return ["throttle-1", "throttle-2", "throttle-3"];
  return input === "resistance-rising" || input === "resistance-falling" ? ["throttle-1", "throttle-2"] : [];
}

export const motorSensorTerminals: readonly TerminalSpec[] = together(
  MOTOR_SENSOR_PINS.map(([id, title]) => terminal(id, "pin", false, title, "sensor-plug")),
  MOTOR_SENSOR_PINS.slice(0, 4).map(([id]) => id),
  MOTOR_SENSOR_PINS.slice(4).map(([id]) => id),
);

export const controllerCase: TerminalSpec = terminal("case", "stud", false, "Metal case, for the bond to chassis");

/** B+/B- and the logic supply against its reference; the latter is left out while the feed is unstated. */
export function controllerSupplyPairs(values: Values): readonly SupplyPair[] {
  const pack: SupplyPair = { plus: "B+", minus: "B-", polarised: true, direction: "input", main: true };
  const feed = values.choice("logicFeed");
  if (feed === undefined) return [pack];
  const minus = feed === "pack-fed" ? "B-" : "logic-";
  return [pack, { plus: "logic+", minus, polarised: true, direction: "input", main: false }];
}

/** Pins of a plug, row after row, around its centre; pin 1 at the left of the upper row, nearest B+. */
function plug(id: string, ids: readonly string[], columns: number, centre: { readonly x: number; readonly y: number }) {
  const rows = Math.ceil(ids.length / columns);
  const places = ids.map(
    (pin, place) =>
      [
        pin,
        {
          x: centre.x + ((place % columns) - (columns - 1) / 2) * PITCH,
          y: centre.y + (Math.floor(place / columns) - (rows - 1) / 2) * PITCH,
        },
      ] as const,
  );
  const width = columns * PITCH + 5;
  return {
    places: Object.fromEntries(places),
    plug: { id, box: { x: centre.x - width / 2, y: centre.y - 6, width, height: 12 }, pitch: PITCH, pins: ids },
  };
}

/** 210 x 150 mm; B+ (25, 40) and B- (25, 110) on one short side, the motor's studs as given on the other. */
export function controllerFace(motorStuds: Face["terminals"], sensors: boolean): Face {
  const control = plug(
    "control",
    CONTROL_PINS.map(([id]) => id),
    ROW,
    PLUG_CENTRE,
  );
  const sensor = plug(
    "motor-sensors",
    MOTOR_SENSOR_PINS.map(([id]) => id),
    MOTOR_SENSOR_PINS.length,
    SENSOR_PLUG_CENTRE,
  );
  return {
    width: 210,
    height: 150,
    terminals: {
      "B+": { x: 25, y: 40, stud: "M8" },
      "B-": { x: 25, y: 110, stud: "M8" },
      ...motorStuds,
      case: { x: 10, y: 10, stud: "M6" },
      ...control.places,
      ...(sensors ? sensor.places : {}),
    },
    plugs: sensors ? [control.plug, sensor.plug] : [control.plug],
    byDefault: true,
  };
}

/** Pins that face the pack and the vehicle's controls, and pins that face the motor, the pedal and the tools. */
const CONTROLS_LEFT: readonly BoxPin[] = [
  "logic+",
  "logic-",
  "pack-sense",
  null,
  "contactor-out",
  "precharge-out",
  null,
  "interlock",
  "forward",
  "reverse",
  "charge-inhibit",
  "brake",
  "brake-lamp-out",
];
const CONTROLS_RIGHT: readonly BoxPin[] = [
  "throttle-1",
  "throttle-2",
  "throttle-3",
  null,
  "serial-tx",
  "serial-rx",
  "serial-ground",
];

/**
 * One labelled box, read from left to right: the pack's studs and the vehicle's controls enter at the left, the
 * motor's studs and what belongs to it leave at the right, the case is below.
 */
export function controllerViews(
  title: string,
  motorStuds: readonly BoxPin[],
  sensors: boolean,
  glyph: DisplayList,
): readonly View[] {
  const left: readonly BoxPin[] = ["B+", "B-", null, ...CONTROLS_LEFT];
  const motor: readonly BoxPin[] = sensors ? [...motorStuds, null, ...MOTOR_SENSOR_PINS.map(([id]) => id)] : motorStuds;
  const right: readonly BoxPin[] = [...motor, null, ...CONTROLS_RIGHT];
  return [
    view(
      "controller",
      title,
      labelledBox(left, right, title, { below: ["case"], glyph: { list: glyph, width: 15, height: 15 } }),
    ),
  ];
}
