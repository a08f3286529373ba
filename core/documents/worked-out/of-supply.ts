/** What the studies say of a battery or converter: short circuit at its poles, isolation, the 12 V budget, days until flat. */
import type { Pack } from "../../circuit/analysis.ts";
import type { NetworkPart } from "../../network/network.ts";
import type { Ampere } from "../../quantity/kinds.ts";
import { METHOD_SOURCE, ISOLATION_SOURCE } from "../../standards/isolation.ts";
import { auxiliaryBudget } from "../../studies/auxiliary-budget.ts";
import type { AuxiliarySystem, StandingDrain, StateBudget } from "../../studies/auxiliary-budget.ts";
import { meterReadings, packIsolations } from "../../studies/isolation.ts";
import { currentsAtPoles } from "../../studies/prospective-current.ts";
import { unstatedResistance } from "../../studies/words/highest.ts";
import type { Wording, WorkedRow, WorkedSection } from "./worked-out.ts";
import { lasting } from "./worked-out.ts";

/** What draws less does so for days: "left standing" tells it. */
const LEAST_DEMAND: Ampere = 0.1;

export function* ofSupply(say: Wording, part: NetworkPart): Generator<WorkedSection> {
  const { analysis } = say;
  const packs = analysis.packs.filter(({ blocks }) => blocks.includes(part));
  for (const pack of packs) {
    yield { title: packTitle(pack), rows: poleRows(say, pack) };
    if (pack.duty === "traction") yield* isolationSections(say, pack);
  }
  for (const system of auxiliaryBudget(analysis).systems) {
    const outputs = system.states.some((state) => state.outputs.some((output) => output.part === part));
    if (!outputs && !system.supply.blocks.includes(part)) continue;
    yield { title: "12 V: what is drawn and given", rows: budgetRows(say, system) };
    if (system.battery) yield { title: "12 V battery alone", rows: aloneRows(say, system) };
  }
  for (const drain of auxiliaryBudget(analysis).standing)
    if (packs.includes(drain.pack)) yield { title: "Left standing", rows: standingRows(say, drain) };
}

function packTitle({ blocks, duty }: Pack): string {
  const what = duty === "traction" ? "Traction battery" : "12 V battery";
  const [first] = blocks;
  const last = blocks.at(-1);
  if (first === undefined || last === undefined || blocks.length < 2) return what;
  return `${what} of ${String(blocks.length)} blocks`;
}

function poleRows(say: Wording, pack: Pack): readonly WorkedRow[] {
  const at = currentsAtPoles(say.analysis).find(({ pack: feed }) => feed.pack === pack);
  return [
    {
      label: "Voltage",
      text: say.figure(pack.rest, "voltage"),
      note: `nearly empty ${say.figure(pack.lowest, "voltage")}, on charge ${say.figure(pack.highest, "voltage")}`,
    },
    at === undefined
      ? { label: "Short at its poles", text: "not known" }
      : {
          label: "Short at its poles",
          text: say.range(at.current.least, at.current.most, "current"),
          lacks: say.lacks(unstatedResistance([pack])),
        },
  ];
}

/** How people measure it: at rest, and with the contactor in. */
const MEASURED_IN = ["parked", "ready"] as const;

function* isolationSections(say: Wording, pack: Pack): Generator<WorkedSection> {
  const { analysis } = say;
  const stated = packIsolations(analysis).find((each) => each.pack === pack);
  if (stated?.joined === true) {
    const text = "none to measure: the chassis is part of this circuit";
    yield { title: "Isolation from the chassis", rows: [{ label: "Isolation", text }] };
    return;
  }
  const lacks = say.lacks(stated?.missing ?? []);
  for (const name of MEASURED_IN) {
    const state = analysis.state(name);
    const read = state === undefined ? undefined : meterReadings(analysis, pack, state);
    if (read === undefined) continue;
    const pole = read.loadedPole === "negative" ? "Minus" : "Plus";
    const least = stated?.limits.least ?? NaN;
    yield {
      title: `Isolation, as a meter reads it in ${name}`,
      rows: [
        { label: "Minus to chassis", text: say.figure(read.negative, "voltage") },
        { label: "Plus to chassis", text: say.figure(read.positive, "voltage") },
        {
          label: `${pole} to chassis again`,
          text: say.figure(read.loaded, "voltage"),
          note: `with ${say.figure(read.resistor, "resistance")} laid across`,
        },
        {
          label: "By these readings",
          text: say.figure(read.isolation, "resistance"),
          note: `${say.figure(read.perVolt, "resistance-per-volt")}; at least ${say.figure(least, "resistance-per-volt")}`,
          lacks,
          inputs: [`Meter: ${say.figure(read.meter, "resistance")} (assumed)`],
          sources: [METHOD_SOURCE, ISOLATION_SOURCE],
        },
      ],
    };
  }
}

function budgetRows(say: Wording, { states, missing }: AuxiliarySystem): readonly WorkedRow[] {
  const rows = states.map((state) => ({
    state: state.state,
    text: `${say.figure(state.demand, "current")} drawn`,
    note: `${givenText(say, state)}${largest(state)}`,
  }));
  return together(rows, "").map((row, index) => (index === 0 ? { ...row, lacks: say.lacks(missing) } : row));
}

interface InState {
  readonly state: string;
  readonly text: string;
  readonly note: string;
}

/** States that read alike in one row. */
function together(rows: readonly InState[], before: string): readonly WorkedRow[] {
  const alike = new Map<string, InState[]>();
  for (const row of rows) {
    const key = `${row.text}|${row.note}`;
    alike.set(key, [...(alike.get(key) ?? []), row]);
  }
  return [...alike.values()].flatMap((group): WorkedRow[] => {
    const [first] = group;
    if (first === undefined) return [];
    return [{ label: `${before}${group.map(({ state }) => state).join(", ")}`, text: first.text, note: first.note }];
  });
}

function givenText(say: Wording, { outputs, capable, shortfall }: StateBudget): string {
  if (outputs.length === 0) return "nothing but the battery gives";
  const names = outputs.map(({ part }) => part.part.designation).join(" and ");
  if (capable === undefined) return `not known what ${names} can give`;
  const short = shortfall !== undefined && shortfall > 0 ? `, ${say.figure(shortfall, "current")} short` : "";
  return `${names} can give ${say.figure(capable, "current")}${short}`;
}

function largest({ loads }: StateBudget): string {
  const [first, second] = loads;
  if (first === undefined) return "";
  const named = [first, ...(second === undefined ? [] : [second])].map(({ part }) => part.part.designation);
  return `; most: ${named.join(", ")}`;
}

function aloneRows(say: Wording, { states, capacity, usableSource, missing }: AuxiliarySystem): readonly WorkedRow[] {
  const lacks = capacity === undefined ? say.lacks(missing) : [];
  const timed = states.flatMap(({ state, onBatteryAlone, demand }) =>
    demand < LEAST_DEMAND
      ? []
      : [{ state, text: lasting(onBatteryAlone), note: `at ${say.figure(demand, "current")}` }],
  );
  return [
    { label: "Capacity", text: say.figure(capacity, "charge"), lacks },
    ...together(timed, "Lasts in ").map((row) => ({ ...row, sources: [usableSource] })),
  ];
}

function standingRows(say: Wording, drain: StandingDrain): readonly WorkedRow[] {
  const { current, draws, capacity, flatAfter, usableSource, missing, afterDriving } = drain;
  const named = draws.slice(0, 3).map(({ part }) => part.part.designation);
  return [
    {
      label: "Drawn while parked",
      text: say.figure(current, "current"),
      note: `${afterDriving ? "after driving" : "at rest"}${named.length === 0 ? "" : `; by ${named.join(", ")}`}`,
    },
    {
      label: "Flat after",
      text: lasting(flatAfter),
      note:
        capacity === undefined
          ? "capacity not stated"
          : `of ${say.figure(capacity, "charge")}; self-discharge not counted`,
      lacks: say.lacks(missing),
      sources: [usableSource],
    },
  ];
}
