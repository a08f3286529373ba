/**
 * The kinds of sources, protection, passive parts, controllers and motors as project files and tables know them: letter
 * after IEC 81346-2, terminals (`*` = must be connected), parameters with their defaults and choices. Typed by hand from
 * the description of the file format, so that a kind cannot drift away from it.
 */
import { describe, expect, it } from "vitest";
import { kindOf } from "../../../core/parts/catalogue.ts";
import { contradictions, type PartKind } from "../../../core/parts/define.ts";
import { normaliseParameter, readValues } from "../../../core/parts/values.ts";

interface Row {
  readonly letter: string;
  readonly terminals: string;
  /** `name`, `name=default`, `name{a/b}`, `name{a/b}=a`. */
  readonly parameters: readonly string[];
  /** Terminals that change with these parameters. */
  readonly more?: readonly (readonly [Readonly<Record<string, string>>, string])[];
}

const words = (text: string): readonly string[] => text.split(" ");

const CHEMISTRY = "chemistry{flooded-lead/agm-lead/gel-lead/lifepo4/nmc/lto/nimh}";
const BATTERY = words(
  `duty{traction/auxiliary} ${CHEMISTRY} cells=6 capacity resistance chargeState dischargeMax chargeMax internalMonitor{no/yes} isolation`,
);
const CONTROL =
  "logic+* logic- pack-sense throttle-1 throttle-2 throttle-3 contactor-out precharge-out interlock forward reverse charge-inhibit brake brake-lamp-out serial-tx serial-rx serial-ground";
const CONTROL_ISOLATED = CONTROL.replace("logic- ", "logic-* ");
const SENSORS = "encoder-a encoder-b encoder-supply encoder-ground temperature-1 temperature-2";
const CONTROLLER = words(
  "nominalMin nominalMax voltageMin voltageMax currentMax currentContinuous motorCurrentMax inputCapacitance bleedResistance logicFeed{pack-fed/isolated-12v/shared-12v} logicMin logicMax logicCurrent throttleInput{resistance-rising/resistance-falling/divider/voltage/hall} throttleIdle throttleFull throttleMode{one-way/centre-zero}=one-way throttleFaultBand{yes/no} highPedalLockout{yes/no} contactorDriver{none/high-side/low-side} driverCurrent driverClamp inputCurrent packSense{source-side/load-side} driverSuppressionRequired{no/yes} outputBootState{off/on/undefined} prechargeInternal{no/yes} prechargeThreshold prechargeTimeout serialIsolated{yes/no} regeneration{no/yes} regenerationCutVoltage externalCut{required/allowed/forbidden} isolation",
);
const MOTOR = words("currentContinuous voltageMax isolation");

const TABLE: Readonly<Record<string, Row>> = {
  "battery-block": { letter: "G", terminals: "+* -*", parameters: BATTERY },
  "battery-pack": {
    letter: "G",
    terminals: "+* -*",
    parameters: [...BATTERY, "blocks", "jumperResistance=0.1 mohm", "internalFuseRating", "internalFuseVoltage"],
  },
  "dc-dc-converter": {
    letter: "T",
    terminals: "in+* in-* out+* out-* enable case",
    parameters: [
      ...words("inputMin inputMax outputCurrentMax isolated{yes/no} enableInput{none/active-high} inputCapacitance"),
      ...words("backfeed{no/yes} reverseLeakage isolation"),
      "outputVoltage=13.8 V",
      "efficiency=90 %",
    ],
    more: [[{ enableInput: "active-high" }, "in+* in-* out+* out-* enable* case"]],
  },
  charger: {
    letter: "T",
    terminals: "L* N* PE* out+* out-* inhibit-1 inhibit-2 aux+ aux- case",
    parameters: [
      ...words(`mainsPlug{no/yes} ${CHEMISTRY} outputVoltageMax outputCurrentMax isolated{yes/no} inputCurrentMax`),
      ...words(
        "outputCapacitance batteryDetect{yes/no} inhibitFollows{plugged/charging} residualCurrentDevice{yes/no}",
      ),
      "isolation",
      "inputVoltage=230 V",
    ],
    more: [[{ mainsPlug: "yes" }, "L N PE out+* out-* inhibit-1 inhibit-2 aux+ aux- case"]],
  },
  inlet: {
    letter: "X",
    terminals: "L N PE pilot proximity",
    parameters: words("inputVoltage currentMax residualCurrentDevice{yes/no}"),
  },
  "dc-source": { letter: "G", terminals: "+ -", parameters: words("voltage currentMax") },
  fuse: {
    letter: "F",
    terminals: "1* 2*",
    parameters: words(
      "rating voltageDc voltageAc interrupting curve{blade/bolted-strip/traction-gR/semiconductor-aR/glass} curvePoints holderRating",
    ),
  },
  "circuit-breaker": {
    letter: "F",
    terminals: "line* load*",
    parameters: words("rating voltageDc interrupting polarised{no/yes} manual{yes/no}"),
  },
  suppressor: {
    letter: "F",
    terminals: "1 2",
    parameters: words("type{varistor/zener/bidirectional/rc} clampVoltage energy"),
  },
  resistor: { letter: "R", terminals: "1 2", parameters: words("resistance power pulseEnergy voltage") },
  diode: { letter: "R", terminals: "anode cathode", parameters: ["current", "reverseVoltage", "drop=0.7 V"] },
  capacitor: { letter: "C", terminals: "+ -", parameters: words("capacitance voltage polarised{no/yes}") },
  "voltage-divider": { letter: "R", terminals: "in out common", parameters: words("ratio inputMax outputMax") },
  "dc-controller": {
    letter: "T",
    terminals: `B+* B-* M-* M+ F1 F2 ${CONTROL} case`,
    parameters: CONTROLLER,
    more: [[{ logicFeed: "isolated-12v" }, `B+* B-* M-* M+ F1 F2 ${CONTROL_ISOLATED} case`]],
  },
  "ac-controller": {
    letter: "T",
    terminals: `B+* B-* U* V* W* ${CONTROL} ${SENSORS} case`,
    parameters: CONTROLLER,
    more: [[{ logicFeed: "shared-12v" }, `B+* B-* U* V* W* ${CONTROL} ${SENSORS} case`]],
  },
  "control-unit": {
    letter: "K",
    terminals: `supply+* supply-* ${numbered("in", 8)} ${numbered("out", 8)} serial-tx serial-rx serial-ground`,
    parameters: [
      ...words("inputs outputs outputType{high-side/low-side/relay} outputCurrent outputBootState{off/on/undefined}"),
      ...numbered("out", 32)
        .split(" ")
        .map((output) => `${output}-follows`),
    ],
    more: [
      [{ inputs: "2", outputs: "1" }, "supply+* supply-* in-1 in-2 out-1 serial-tx serial-rx serial-ground"],
      [{ inputs: "0", outputs: "1" }, "supply+* supply-* out-1 serial-tx serial-rx serial-ground"],
    ],
  },
  "motor-series": {
    letter: "M",
    terminals: "A1* A2* S1* S2* case",
    parameters: ["armatureResistance", "fieldResistance", ...MOTOR],
  },
  "motor-permanent-magnet": { letter: "M", terminals: "+* -* case", parameters: ["resistance", ...MOTOR] },
  "motor-separately-excited": {
    letter: "M",
    terminals: "A1* A2* F1* F2* case",
    parameters: ["armatureResistance", "fieldResistance", "fieldVoltageMax", ...MOTOR],
  },
  "motor-compound": {
    letter: "M",
    terminals: "A1* A2* F1* F2* S1 S2 case",
    parameters: ["armatureResistance", "fieldResistance", "seriesFieldResistance", "fieldVoltageMax", ...MOTOR],
  },
  "motor-ac": {
    letter: "M",
    terminals: `U* V* W* ${SENSORS} case`,
    parameters: ["machine{induction/permanent-magnet}", ...MOTOR],
  },
};

function numbered(stem: string, count: number): string {
  return Array.from({ length: count }, (_, place) => `${stem}-${String(place + 1)}`).join(" ");
}

/** On every kind, and tested below. */
const SHARED = /^(?:finish(?:-.+)?|alwaysOn)$/;

function known(name: string): PartKind {
  const kind = kindOf(name);
  if (kind === undefined) throw new Error(`there is no kind ${name}`);
  return kind;
}

const terminalsOf = (kind: PartKind, parameters: Readonly<Record<string, string>>): string =>
  kind
    .terminals(readValues(kind, parameters))
    .map(({ id, required }) => `${id}${required ? "*" : ""}`)
    .join(" ");

const parametersOf = (kind: PartKind): readonly string[] =>
  Object.entries(kind.parameters)
    .filter(([name]) => !SHARED.test(name))
    .map(([name, spec]) => {
      const choices = "choices" in spec ? `{${spec.choices.join("/")}}` : "";
      return `${name}${choices}${spec.default === undefined ? "" : `=${spec.default}`}`;
    })
    .sort();

describe.each(Object.entries(TABLE))("%s", (name, row) => {
  const kind = known(name);

  it("has the letter, the terminals and the parameters of the file format", () => {
    expect(kind.kind).toBe(name);
    expect(kind.letter).toBe(row.letter);
    expect(terminalsOf(kind, {})).toBe(row.terminals);
    expect(parametersOf(kind)).toEqual([...row.parameters].sort());
  });

  it("changes its terminals as its parameters ask", () => {
    for (const [parameters, terminals] of row.more ?? [[{}, row.terminals] as const]) {
      expect(terminalsOf(kind, parameters)).toBe(terminals);
    }
  });

  it("explains itself and each of its parameters in a sentence, and says where to find it", () => {
    expect(kind.explanation).toMatch(/^[A-Z].{20,}\.$/);
    for (const spec of Object.values(kind.parameters)) {
      expect(spec.title).toMatch(/^[A-Z]/);
      expect(spec.explanation).toMatch(/^[A-Z].{15,}\.$/s);
      expect(spec.where).toMatch(/^[A-Z].{4,}\.$/s);
    }
  });

  it("contradicts itself in no choice, and takes its own defaults", () => {
    const changes = Object.entries(kind.parameters).flatMap(([parameter, spec]) =>
      "choices" in spec ? spec.choices.map((word) => ({ [parameter]: word })) : [],
    );
    for (const change of [{}, ...changes]) expect(contradictions(kind, readValues(kind, change))).toEqual([]);
    for (const spec of Object.values(kind.parameters)) {
      if (spec.default !== undefined) expect(normaliseParameter(spec, spec.default)).toMatchObject({ ok: true });
    }
  });

  it("has a finish for each terminal", () => {
    for (const { id } of kind.terminals(readValues(kind, {}))) {
      expect(kind.parameters[`finish-${id}`]).toMatchObject({ choices: ["bare", "booted"] });
    }
    expect(kind.parameters["finish"]).toMatchObject({ choices: ["bare", "booted"] });
  });
});

describe("a face", () => {
  const faceOf = (name: string, parameters: Readonly<Record<string, string>> = {}) => {
    const kind = known(name);
    return kind.face(readValues(kind, parameters));
  };
  const apart = (name: string, parameters: Readonly<Record<string, string>>, a: string, b: string): number => {
    const { terminals } = faceOf(name, parameters);
    const [from, to] = [terminals[a], terminals[b]];
    return Math.hypot((from?.x ?? NaN) - (to?.x ?? NaN), (from?.y ?? NaN) - (to?.y ?? NaN));
  };

  it("of a controller has its studs and a plug of two rows where they usually are", () => {
    const face = faceOf("dc-controller");
    expect([face.width, face.height]).toEqual([210, 150]);
    expect(face.terminals["B+"]).toEqual({ x: 25, y: 40, stud: "M8" });
    expect(face.terminals["B-"]).toEqual({ x: 25, y: 110, stud: "M8" });
    expect(face.terminals["M-"]).toEqual({ x: 185, y: 75, stud: "M8" });
    const [plug] = face.plugs;
    // 30 x 12 mm, centred at (160, 144), pitch 2.5 mm, pins in the order of the terminals.
    expect(plug?.box).toEqual({ x: 145, y: 138, width: 30, height: 12 });
    expect(plug?.pitch).toBe(2.5);
    expect(plug?.pins.join(" ")).toBe(CONTROL.replace("*", ""));
    // Pin 1 is nearest B+.
    const distances = (plug?.pins ?? []).map((id) => apart("dc-controller", {}, id, "B+"));
    expect(Math.min(...distances)).toBe(distances[0]);
    expect(
      known("dc-controller")
        .terminals(readValues(known("dc-controller"), {}))
        .map(({ row }) => row),
    ).toEqual([
      ...Array<undefined>(6).fill(undefined),
      ...Array<string>(10).fill("plug-row-1"),
      ...Array<string>(7).fill("plug-row-2"),
      undefined,
    ]);
  });

  it("of a traction fuse has studs 75 mm apart, of a 12 V block posts 250 mm, of a 6 V block 190 mm", () => {
    expect(apart("fuse", {}, "1", "2")).toBe(75);
    expect(apart("battery-block", {}, "+", "-")).toBe(250);
    expect(apart("battery-block", { cells: "3" }, "+", "-")).toBe(190);
    expect(faceOf("battery-block", { cells: "3" })).toMatchObject({ width: 260, height: 180, byDefault: true });
  });
});

describe("a part that is meant to stay on", () => {
  it("can be said of what draws power, and of nothing else", () => {
    const drawing = [
      "dc-dc-converter",
      "charger",
      "dc-controller",
      "control-unit",
      "motor-series",
      "contactor",
      "lamp",
    ];
    for (const name of drawing) expect(known(name).parameters["alwaysOn"], name).toBeDefined();
    for (const name of ["battery-block", "fuse", "resistor", "inlet", "dc-source", "switch", "busbar"]) {
      expect(known(name).parameters["alwaysOn"], name).toBeUndefined();
    }
  });
});

describe("a contradiction in a kind", () => {
  const sound = known("resistor");
  const values = readValues(sound, {});
  it("is named: a terminal in no view, an unknown one in a supply pair, a double name", () => {
    expect(contradictions({ ...sound, views: () => [] }, values)).toEqual([
      "terminal 1 of resistor lies in 0 views instead of one",
      "terminal 2 of resistor lies in 0 views instead of one",
    ]);
    const pair = { plus: "1", minus: "3", polarised: true, direction: "input", main: false } as const;
    expect(contradictions({ ...sound, supplyPairs: () => [pair] }, values)).toEqual([
      "a supply pair of resistor names 3, which is no terminal of it",
    ]);
    const twice = [...sound.terminals(values), ...sound.terminals(values)];
    expect(contradictions({ ...sound, terminals: () => twice }, values)).toContain(
      "resistor has two terminals of one name",
    );
  });
});
