import type { Analysis } from "../../circuit/analysis.ts";
import type { Volt } from "../../quantity/kinds.ts";
import { SUPPRESSION_SOURCE } from "../../standards/coils.ts";
import { defineCheck } from "../define.ts";
import type { MissingField, Report } from "../define.ts";
import type { CoilAt } from "../words/coils.ts";
import { brokenPlaces, endStates, whenFact } from "../words/in-time.ts";
import { partPlace } from "../words/places.ts";
import { suppressionDiode } from "../remedies/suppression-diode.ts";
import { turnOffsOf } from "../words/turn-offs.ts";
import type { LetGo, Output, TurnOffAt } from "../words/turn-offs.ts";

export const coilUnsuppressed = defineCheck({
  id: "coil-unsuppressed",
  group: "coils",
  title: "Coil without suppression",
  about:
    "Follows each coil of a relay or contactor through being switched off and looks where its current goes: through a diode, zener, varistor or resistor across it, through the driver's own clamp, or wherever it can, up to an arc in the switch. More than six times the coil's own voltage counts as no way at all. That does not depend on the coil's inductance, which may be unstated. An output or a switch that stays closed in all of this, such as that of a battery monitor or the selector, is taken to open while driving or charging. Coils that nothing switches off are not looked at.",
  severities: ["WARNING", "CAUTION"],
  source: SUPPRESSION_SOURCE,
  reads: "states",
  withstands: { splice: true, busbar: true, connector: true, contact: true, rename: true },
  without: {},
  messages: {
    none: {
      title:
        "Nothing takes up the current of the coil of {coil} when it is switched off by {switches}: the voltage across it jumps to {volts}.",
      why: "The arc eats away the small contact that switches the coil, and the voltage peak gets into every electronic part on the same supply.",
      mend: "Put a diode across the coil of {coil} with its ring (cathode) on the plus side; a zener or varistor lets a main contactor open faster.",
    },
    clamp: {
      title:
        "The output of {switches} has to take up the current of the coil of {coil}: nothing else holds the voltage below its clamp of {clamp}.",
      why: "A transistor that takes up a coil's kick at each switching-off ages or breaks through, and then the contactor stays in.",
      mend: "Put a diode, zener or varistor across the coil of {coil} that conducts well below {clamp}.",
    },
    required: {
      title: "{switches} wants its coils suppressed, and the coil of {coil} is not: the voltage jumps to {volts}.",
      why: "Without suppression the kick of the coil destroys the output, and then the contactor stays in or never comes.",
      mend: "Put what the manual of {switches} asks for across the coil of {coil}, a diode, a zener or a bidirectional suppressor.",
    },
  },
  reasons: {
    suppression: "Whether anything inside {coil} takes up the current of its coil is not stated.",
    broken: "What coils do {when} cannot be told: the circuit finds no rest around {parts}.",
  },
  foldsUnder: ["diode-reversed", "supply-reversed", "coil-voltage-wrong"],
  run(analysis, report) {
    const { coils, broken } = turnOffsOf(analysis);
    if (broken.length > 0) {
      const parts = brokenPlaces(
        broken,
        coils.map(({ at }) => at.part),
      );
      const facts = { when: whenFact(broken), parts: { places: parts } };
      report.notChecked({ where: parts, reason: "broken", facts, missing: [] });
    } else if (coils.length === 0) report.doesNotApply();
    for (const letGo of coils) judge(analysis, letGo, broken.length === 0, report);
  },
});

/**
 * Across the coil while it is on. Not right before it is let go: where two switches part it one after the other, what
 * the first left behind may stand the other way round.
 */
function voltsOn({ states }: Analysis, { plus, minus }: CoilAt): Volt {
  const volts = states.map((state) => state.between(plus, minus)).filter(Number.isFinite);
  return volts.reduce((most, each) => (Math.abs(each) > Math.abs(most) ? each : most), 0);
}

/** Unlike others a driver may be made for it. */
function isBad({ jumped, clamp, driver }: TurnOffAt): boolean {
  return clamp !== undefined || (jumped && driver?.values.choice("driverSuppressionRequired") !== "no");
}

/** Coils side by side lie between the same two nets: one suppressor takes up the current of both. */
function betweenNets({ network }: Analysis, { plus, minus }: CoilAt): string {
  return [plus, minus]
    .map((node) => network.netOfNode[node] ?? -1)
    .sort((a, b) => a - b)
    .join(" ");
}

function judge(analysis: Analysis, letGo: LetGo, whole: boolean, report: Report): void {
  const { at, turnOffs } = letGo;
  const place = partPlace(at.part);
  const coil = { place };
  const bad = turnOffs.filter(isBad);
  const worst = [...bad].sort((a, b) => rank(a) - rank(b) || b.turnOff.peak - a.turnOff.peak)[0];
  const output = letGo.outputs
    .filter(({ jumped, driver }) => jumped && driver.values.choice("driverSuppressionRequired") !== "no")
    .reduce<Output | undefined>((most, each) => (most === undefined || each.peak > most.peak ? each : most), undefined);
  if (worst === undefined && output === undefined) {
    if (turnOffs.length === 0 && letGo.outputs.length === 0) report.doesNotApply(place);
    else if (whole) report.passes(place);
    return;
  }
  const { kind, values, part } = at.part;
  if (Object.hasOwn(kind.parameters, "suppression") && values.choice("suppression") === undefined) {
    const missing: readonly MissingField[] = [{ part: part.id, parameter: "suppression" }];
    report.notChecked({ where: [place], reason: "suppression", facts: { coil }, missing });
    return;
  }
  if (worst === undefined) {
    if (output !== undefined) failOutput(analysis, at, output, report);
    return;
  }
  const alike = bad.filter((each) => rank(each) === rank(worst));
  const switches = [...new Set(alike.flatMap((each) => each.switches))].map(partPlace);
  const transitions = alike.map(({ transition }) => transition);
  const peak: Volt = Math.max(...alike.map(({ turnOff }) => turnOff.peak));
  report.fails({
    message: MESSAGES[rank(worst)] ?? "none",
    facts: {
      coil,
      switches: { places: switches.length > 0 ? switches : [place] },
      volts: { value: peak, dimension: "voltage" },
      clamp: { value: worst.clamp ?? 0, dimension: "voltage" },
    },
    severity: rank(worst) < 2 ? "WARNING" : "CAUTION",
    where: [place, ...switches],
    cause: betweenNets(analysis, at),
    states: endStates(transitions),
    value: worst.clamp ?? peak,
    unit: "V",
    remedies: suppressionDiode(at, voltsOn(analysis, at)),
  });
}

/** An output that opens when something is wrong with the battery: as a rule the only one that does. */
function failOutput(analysis: Analysis, at: CoilAt, { driver, state, peak }: Output, report: Report): void {
  const place = partPlace(at.part);
  const switches = [partPlace(driver)];
  const required = driver.values.choice("driverSuppressionRequired") === "yes";
  const facts = {
    coil: { place },
    switches: { places: switches },
    volts: { value: peak, dimension: "voltage" },
  } as const;
  report.fails({
    message: required ? "required" : "none",
    facts,
    severity: required ? "WARNING" : "CAUTION",
    where: [place, ...switches],
    cause: betweenNets(analysis, at),
    states: [state.name],
    value: peak,
    unit: "V",
    remedies: suppressionDiode(at, state.between(at.plus, at.minus)),
  });
}

const MESSAGES = ["clamp", "required", "none"] as const;

function rank({ clamp, driver }: TurnOffAt): 0 | 1 | 2 {
  if (clamp !== undefined) return 0;
  return driver?.values.choice("driverSuppressionRequired") === "yes" ? 1 : 2;
}
