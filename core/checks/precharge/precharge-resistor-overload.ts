import type { Analysis, SolvedState } from "../../circuit/analysis.ts";
import { netOf } from "../../circuit/questions.ts";
import type { NetworkPart } from "../../network/network.ts";
import type { Joule, Ratio, Volt, Watt } from "../../quantity/kinds.ts";
import { capacitorEnergy, inrushPower } from "../../standards/precharge.ts";
import { defineCheck } from "../define.ts";
import { resistorFor } from "../remedies/exchange-resistor.ts";
import type { MissingField, Report } from "../define.ts";
import { closedFeed, isClosedContact } from "../words/closed-feed.ts";
import { coilsOf } from "../words/coils.ts";
import { partPlace } from "../words/places.ts";
import { fuseEnds, prechargePaths } from "../words/precharge-paths.ts";
import type { PrechargePath } from "../words/precharge-paths.ts";
import { packVolts } from "../words/traction-pairs.ts";

export const prechargeResistorOverload = defineCheck({
  id: "precharge-resistor-overload",
  group: "precharge",
  title: "Pre-charge resistor too small",
  about:
    "Holds what a pre-charge resistor turns into heat at each start, at least half the capacitance times the pack's highest voltage squared, and more where loads draw meanwhile, against its pulse rating; a resistor that stands the full voltage for good needs none. Then it shorts what the resistor feeds and looks whether anything ends that: a fuse, the controller's time limit, a timer, or a main contactor that closes onto the short so that the main fuse opens.",
  severities: ["WARNING"],
  source: {
    text: "Published application notes on pre-charge: E = C V²/2 at each charge, size by pulse energy, V²/R where the bus is shorted",
    known: "seen",
  },
  reads: "states",
  withstands: { splice: true, busbar: true, connector: true, contact: true, rename: true },
  without: {},
  messages: {
    pulse: {
      title: "{resistor} turns {energy} into heat at each start, and its pulse rating is {rating}.",
      why: "A resistor that takes more at once than it is made for opens after some starts, and then the main contact closes onto empty capacitors and welds.",
      mend: "Use a wire-wound resistor with a pulse rating of at least {energy}; its ohms do not change this energy.",
    },
    shorted: {
      title: "With a short behind it {resistor} has to turn {power} into heat and stands {rating}; nothing ends that.",
      why: "A broken transistor in the controller is enough: the resistor then glows until it sets fire to what is beside it.",
      mend: "Put a fuse in series with {resistor} that this current opens, let a controller or a timer end the pre-charge, or use a resistor of at least {power}.",
    },
  },
  reasons: {
    resistance: "Whether {resistor} is large enough cannot be told, as its resistance is not stated.",
    power: "Whether {resistor} is large enough cannot be told, as its power is not stated.",
    pulse: "Whether {resistor} stands the heat of a start cannot be told, as its pulse rating is not stated.",
    capacitance: "How much {resistor} turns into heat at each start depends on a capacitance that is not stated.",
    timeout:
      "Whether anything ends the heat in {resistor} with a short behind it depends on the controller's time limit, which is not stated.",
  },
  run(analysis, report) {
    const paths = prechargePaths(analysis);
    if (paths.length === 0) report.doesNotApply();
    for (const path of paths) judge(analysis, path, report);
  },
});

function judge(analysis: Analysis, path: PrechargePath, report: Report): void {
  const { part, pair } = path;
  const { values } = part;
  const place = partPlace(part);
  const resistor = { place };
  const own = (parameter: string): MissingField => ({ part: part.part.id, parameter });
  const unknown = (reason: string, missing: readonly MissingField[]): void => {
    report.notChecked({ where: [place], reason, facts: { resistor }, missing });
  };
  const [resistance, rated, pulse] = ["resistance", "power", "pulseEnergy"].map((name) => values.number(name));
  if (resistance === undefined) {
    unknown("resistance", [own("resistance")]);
    return;
  }
  const volts = packVolts(pair.packs);
  const energy = energyOf(analysis, path, volts);
  const tooMuch = (joules: Joule): boolean => {
    if (pulse === undefined || joules <= pulse) return false;
    report.fails({
      message: "pulse",
      facts: {
        resistor,
        energy: { value: joules, dimension: "energy" },
        rating: { value: pulse, dimension: "energy" },
      },
      severity: "WARNING",
      where: [place],
      value: joules,
      limit: pulse,
      unit: "J",
      remedies: [resistorFor(part, "pulseEnergy", Math.max(joules, seenInTime(analysis, path)))],
    });
    return true;
  };
  if (tooMuch(energy.joules)) return;
  if (rated === undefined) {
    unknown("power", [own("power")]);
    return;
  }
  // For good at the full voltage: then neither a start nor a short is too much.
  if (inrushPower(volts, resistance) <= rated) {
    report.passes(place);
    return;
  }
  if (pulse !== undefined && tooMuch(seenInTime(analysis, path))) return;
  const short = shorted(analysis, path, volts);
  if (short !== undefined && short.power > rated && short.ended === "no") {
    report.fails({
      message: "shorted",
      facts: {
        resistor,
        power: { value: short.power, dimension: "power" },
        rating: { value: rated, dimension: "power" },
      },
      severity: "WARNING",
      where: [place],
      states: [short.state],
      value: short.power,
      limit: rated,
      unit: "W",
      remedies: [resistorFor(part, "power", short.power)],
    });
  } else if (pulse === undefined) unknown("pulse", [own("pulseEnergy")]);
  else if (energy.missing.length > 0) unknown("capacitance", energy.missing);
  else if (short !== undefined && short.power > rated && Array.isArray(short.ended)) unknown("timeout", short.ended);
  else report.passes(place);
}

/** What it turns into heat at each start, from its capacitors alone. */
function energyOf(
  analysis: Analysis,
  { capacitors }: PrechargePath,
  volts: Volt,
): { readonly joules: Joule; readonly missing: readonly MissingField[] } {
  const missing: MissingField[] = [];
  let joules = 0;
  for (const { index, part } of capacitors) {
    const element = analysis.states[0]?.elements[index];
    const capacitance = element?.type === "capacitor" ? element.capacitance : undefined;
    if (capacitance !== undefined) joules += capacitorEnergy(capacitance, volts);
    else if (part !== undefined) missing.push(...capacitanceField(part));
  }
  return { joules, missing };
}

/** What it turned into heat as the vehicle was switched on in time, loads on the bus and all; 0 where that is not known. */
function seenInTime(analysis: Analysis, { resistor }: PrechargePath): Joule {
  const start = analysis.transition("key-on");
  if (start === undefined || start.trouble !== undefined) return 0;
  return start.resistors.find(({ branch }) => branch === resistor.index)?.energy ?? 0;
}

/** The parameter that a kind reads its capacitance from: the only one of this dimension. */
function capacitanceField({ part, kind }: NetworkPart): readonly MissingField[] {
  const named = Object.entries(kind.parameters).find(
    ([, spec]) => "dimension" in spec && spec.dimension === "capacitance",
  );
  return named === undefined ? [] : [{ part: part.id, parameter: named[0] }];
}

interface Shorted {
  readonly state: string;
  readonly power: Watt;
  /** Fields: whoever states them says whether it is ended. */
  readonly ended: "yes" | "no" | readonly MissingField[];
}

/** The heat with a dead short behind the resistor in the state in which it feeds, at the pack's highest voltage. */
function shorted(analysis: Analysis, path: PrechargePath, volts: Volt): Shorted | undefined {
  const { resistor, pair, contacts } = path;
  const shorts = [[pair.plus, pair.minus] as const];
  const starting = analysis.state("key-on") ?? path.state;
  const state = [starting, path.state]
    .map((each) => analysis.solveChanged(each, { shorts }))
    .reduce((a, b) => (heat(b, resistor.index) > heat(a, resistor.index) * 1.000001 ? b : a));
  const rest = Math.max(...pair.packs.map((pack) => pack.rest));
  const scale: Ratio = rest > 0 ? volts / rest : 1;
  const power = heat(state, resistor.index) * scale ** 2;
  const current = Math.abs(state.currents[resistor.index] ?? 0);
  if (fuseEnds(analysis, state, current)) return { state: state.name, power, ended: "yes" };
  const limits = timeLimits(analysis, path);
  if (limits.some(({ kind }) => kind === "stated")) return { state: state.name, power, ended: "yes" };
  if (contacts.length === 0 || limits.length === 0) {
    const ready = analysis.state("ready");
    const later = ready === undefined ? undefined : analysis.solveChanged(ready, { shorts });
    if (later !== undefined && endsLater(analysis, later, path)) return { state: state.name, power, ended: "yes" };
  }
  const unstated = limits.flatMap(({ field }) => field);
  return { state: state.name, power, ended: unstated.length > 0 ? unstated : "no" };
}

function heat(state: SolvedState, resistor: number): Watt {
  const element = state.elements[resistor];
  return element?.type === "resistance" ? (state.currents[resistor] ?? 0) ** 2 * element.resistance : 0;
}

/** Once the timers have run: the resistor is bridged, so that the main fuse opens, or its own contact has let go. */
function endsLater(analysis: Analysis, later: SolvedState, { resistor, contacts }: PrechargePath): boolean {
  const feed = closedFeed(analysis, later);
  const isBridged = feed.island(resistor.a) === feed.island(resistor.b);
  return isBridged || contacts.some((contact) => !isClosedContact(later, contact));
}

/** Controllers that hold the path's contact by their pre-charge output, and whether they state for how long at most. */
function timeLimits(
  analysis: Analysis,
  { contacts }: PrechargePath,
): readonly { readonly kind: "stated" | "unstated"; readonly field: MissingField }[] {
  const { network } = analysis;
  const relays = new Set(contacts.flatMap(({ part }) => part ?? []));
  const nets = coilsOf(analysis)
    .filter(({ part }) => relays.has(part))
    .flatMap(({ plus, minus }) => [netOf(network, plus), netOf(network, minus)]);
  const controllers = nets.flatMap((net) =>
    (net?.terminals ?? []).flatMap(([id, terminal]) => {
      const part = network.partById.get(id);
      return terminal === "precharge-out" && part?.kind.traits.controller === true ? [part] : [];
    }),
  );
  return [...new Set(controllers)].map(({ part, values }) => ({
    kind: values.number("prechargeTimeout") === undefined ? "unstated" : "stated",
    field: { part: part.id, parameter: "prechargeTimeout" },
  }));
}
