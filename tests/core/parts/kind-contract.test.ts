/**
 * The kinds of switching, sensing, consuming and connecting as project files and tables know them: letter after
 * IEC 81346-2, terminals (`*` = must be connected), parameters with their defaults and choices. Typed by hand from the
 * description of the file format, so that a kind cannot drift away from it.
 */
import { describe, expect, it } from "vitest";
import { kindOf } from "../../../core/parts/catalogue.ts";
import type { PartKind } from "../../../core/parts/define.ts";
import { readValues } from "../../../core/parts/values.ts";

interface Row {
  readonly letter: string;
  readonly terminals: string;
  /** `name`, `name=default`, `name{a/b}`, `name{a/b}=a`. */
  readonly parameters: string;
  /** Terminals that appear with these parameters. */
  readonly more?: readonly (readonly [Readonly<Record<string, string>>, string])[];
}

const NO_YES = "{no/yes}";
const YES_NO = "{yes/no}";
const CONTACTOR =
  `coilVoltage coilMin coilMax coilPower coilResistance coilInductance pickUp=70 % dropOut=20 % contactVoltage currentContinuous currentMake currentBreak polarised${NO_YES} suppression{none/diode/zener/bidirectional} economiser${NO_YES}` as const;
const TIMES = "contactResistance=0.3 mohm closeTime=25 ms openTime=12 ms";

const TABLE: Readonly<Record<string, Row>> = {
  contactor: {
    letter: "Q",
    terminals: "line* load* coil+* coil-* aux-1 aux-2",
    parameters: `poles=1 ${CONTACTOR} aux{make/break} ${TIMES}`,
    more: [[{ poles: "2" }, "line* load* line-2 load-2 coil+* coil-* aux-1 aux-2"]],
  },
  "changeover-contactor": {
    letter: "Q",
    terminals: "common* nc no coil+* coil-*",
    parameters: `${CONTACTOR} ${TIMES}`,
  },
  relay: {
    letter: "K",
    terminals: "coil+* coil-* common* no nc",
    parameters:
      "poles=1 coilVoltage coilMin coilMax coilResistance coilInductance closeTime=10 ms openTime=5 ms pickUp=70 % dropOut=10 % contactVoltage contactCurrent contactBreakDc suppression{none/diode/zener/bidirectional}",
    more: [[{ poles: "2" }, "coil+* coil-* common* no nc common-2 no-2 nc-2"]],
  },
  "timer-relay": {
    letter: "K",
    terminals: "supply+* supply-* trigger common* no nc",
    parameters: "supplyVoltage delay mode{on-delay/off-delay} contactVoltage contactCurrent",
  },
  "solid-state-switch": {
    letter: "Q",
    terminals: "line* load* control+* control-*",
    parameters: `voltageMax currentContinuous bodyDiode${YES_NO}=yes controlMin controlMax offLeakage`,
  },
  "manual-disconnect": {
    letter: "Q",
    terminals: "line* load*",
    parameters: `poles=1 voltageDc currentContinuous breakLoad${NO_YES} lockable${NO_YES}`,
    more: [[{ poles: "2" }, "line* load* line-2 load-2"]],
  },
  "emergency-stop": {
    letter: "S",
    terminals: "11* 12*",
    parameters: "contacts=1 contact{break/make}=break contactVoltage contactCurrent",
    more: [[{ contacts: "2" }, "11* 12* 21 22"]],
  },
  "key-switch": {
    letter: "S",
    terminals: "battery* accessory ignition start",
    parameters: "contactVoltage contactCurrent",
  },
  switch: {
    letter: "S",
    terminals: "common* out*",
    parameters: "poles=1 contactVoltage contactCurrent",
    more: [[{ poles: "2" }, "common* out* common-2 out-2"]],
  },
  "selector-switch": {
    letter: "S",
    terminals: "common* a b",
    parameters: `centre${YES_NO}=yes both${NO_YES} contactVoltage contactCurrent`,
  },
  "push-button": {
    letter: "S",
    terminals: "1* 2*",
    parameters: "contact{make/break} contactVoltage contactCurrent",
  },
  "micro-switch": {
    letter: "S",
    terminals: "common* no nc",
    parameters:
      "actuator{throttle-pedal/brake-pedal/parking-brake/clutch/seat/cover/door/gear/charge-flap} contactVoltage contactCurrent",
  },
  "inertia-switch": { letter: "S", terminals: "common* nc no", parameters: "contactVoltage contactCurrent" },
  "throttle-two-wire": {
    letter: "B",
    terminals: "1* 2*",
    parameters: `resistanceIdle=0 ohm resistanceFull=5 kohm sprung${YES_NO}`,
  },
  "throttle-three-wire": { letter: "B", terminals: "high* wiper* low*", parameters: "resistance=5 kohm" },
  "throttle-hall": { letter: "B", terminals: "supply* signal* ground*", parameters: "voltageIdle voltageFull" },
  shunt: {
    letter: "B",
    terminals: "line* load* sense-line sense-load",
    parameters: "ratedCurrent ratedDrop=50 mV",
  },
  "current-sensor": { letter: "B", terminals: "line load supply ground signal", parameters: "" },
  voltmeter: { letter: "P", terminals: "+* -*", parameters: "rangeMax resistance=1 Mohm" },
  gauge: {
    letter: "P",
    terminals: "supply+* supply-* sense+ sense-",
    parameters: `senseMax isolated${YES_NO} supplyMin supplyMax`,
  },
  display: {
    letter: "P",
    terminals: "supply+* supply-* serial-tx serial-rx serial-ground",
    parameters: `isolated${YES_NO}`,
  },
  "temperature-switch": { letter: "B", terminals: "1 2", parameters: "opensAbove" },
  "battery-monitor": {
    letter: "B",
    terminals: "B- P- C- pack+ supply+ supply- charge-enable discharge-enable alarm serial-tx serial-rx serial-ground",
    parameters: `taps currentDischarge currentCharge outputType{high-side/low-side/relay} outputCurrent outputVoltage isolated${YES_NO}`,
    more: [
      [
        { taps: "2" },
        "B- P- C- pack+ supply+ supply- charge-enable discharge-enable alarm serial-tx serial-rx serial-ground tap-0 tap-1 tap-2",
      ],
    ],
  },
  "isolation-monitor": {
    letter: "B",
    terminals: "+ - chassis supply+ supply- alarm",
    parameters: "internalResistance threshold",
  },
  lamp: { letter: "P", terminals: "+* -*", parameters: `voltage voltageMax power needsPolarity${NO_YES}` },
  buzzer: { letter: "P", terminals: "+* -*", parameters: `voltage voltageMax power needsPolarity${NO_YES}` },
  load: {
    letter: "E",
    terminals: "+* -*",
    parameters: `voltage voltageMax power current needsPolarity${NO_YES} purpose{brake-assist/steering-assist/other}`,
  },
  heater: { letter: "E", terminals: "+* -* case", parameters: "voltage voltageMax power isolation" },
  pump: {
    letter: "M",
    terminals: "+* -*",
    parameters: `voltage voltageMax power current needsPolarity${NO_YES} purpose{brake-assist/steering-assist/other}`,
  },
  "chassis-point": { letter: "X", terminals: "stud", parameters: "structure{body/motor/frame/hull}" },
  "earth-bond": { letter: "X", terminals: "case* stud*", parameters: "" },
  busbar: { letter: "X", terminals: "1 2 3 4", parameters: "positions", more: [[{ positions: "3" }, "1 2 3"]] },
  splice: { letter: "X", terminals: "1 2 3", parameters: "positions", more: [[{ positions: "2" }, "1 2"]] },
  "terminal-strip": {
    letter: "X",
    terminals: "1a 1b 2a 2b 3a 3b 4a 4b",
    parameters: "positions",
    more: [[{ positions: "2" }, "1a 1b 2a 2b"]],
  },
  connector: {
    letter: "X",
    terminals: "1a 2a 1b 2b",
    parameters: `positions pinCurrent pinVoltage keyed${YES_NO} touchSafe${YES_NO} leadLength locking${NO_YES}`,
    more: [[{ positions: "3" }, "1a 2a 3a 1b 2b 3b"]],
  },
};

/** Present on every kind, or on all that draw power. */
const SHARED = /^(finish|finish-.*|alwaysOn|note)$/;

const known = (name: string): PartKind => {
  const kind = kindOf(name);
  if (kind === undefined) throw new Error(`there is no kind ${name}`);
  return kind;
};

function terminalsOf(kind: PartKind, parameters: Readonly<Record<string, string>>): string {
  return kind
    .terminals(readValues(kind, parameters))
    .map(({ id, required }) => `${id}${required ? "*" : ""}`)
    .join(" ");
}

/** Parameters as the table writes them, one a line. */
function parametersOf(kind: PartKind): readonly string[] {
  return Object.entries(kind.parameters)
    .filter(([name]) => !SHARED.test(name))
    .map(([name, spec]) => {
      const choices = "choices" in spec ? `{${spec.choices.join("/")}}` : "";
      return `${name}${choices}${spec.default === undefined ? "" : `=${spec.default}`}`;
    })
    .sort();
}

/** Defaults contain spaces ("70 %"): a new parameter begins with a letter after a space, unless a unit stands there. */
const tableParameters = (text: string): readonly string[] =>
  text === "" ? [] : text.split(/ (?=[a-z][A-Za-z]*(?:[={ ]|$))(?!(?:ohm|kohm|Mohm|mohm|ms|mV)(?: |$))/).sort();

describe.each(Object.entries(TABLE))("%s", (name, row) => {
  it("has the letter, the terminals and the parameters of the file format", () => {
    const kind = known(name);
    expect(kind.kind).toBe(name);
    expect(kind.letter).toBe(row.letter);
    expect(terminalsOf(kind, {})).toBe(row.terminals);
    expect(parametersOf(kind)).toEqual(tableParameters(row.parameters));
  });

  it("grows the terminals that its parameters ask for", () => {
    const kind = known(name);
    for (const [parameters, terminals] of row.more ?? [[{}, row.terminals] as const]) {
      expect(terminalsOf(kind, parameters)).toBe(terminals);
    }
  });

  it("explains itself and each of its parameters in a sentence, and says where to find it", () => {
    const kind = known(name);
    expect(kind.explanation).toMatch(/^[A-Z].{20,}\.$/);
    for (const spec of Object.values(kind.parameters)) {
      expect(spec.title).toMatch(/^[A-Z]/);
      expect(spec.explanation).toMatch(/^[A-Z].{15,}\.$/s);
      expect(spec.where).toMatch(/^[A-Z].{4,}\.$/s);
    }
  });
});
