import type { Analysis, SolvedState } from "../../circuit/analysis.ts";
import type { NetworkPart, NodeIndex } from "../../network/network.ts";
import { CHASSIS_NODE } from "../../network/network.ts";
import type { Role } from "../../parts/element.ts";
import { ISOLATION_DC } from "../../standards/isolation.ts";
import { defineCheck } from "../define.ts";
import type { Place, Report } from "../define.ts";
import { branchPlaces, partPlace, terminalPlace } from "../words/places.ts";

/** What joins: everything but leaks and measuring inputs, which stay above the limit by themselves. */
const JOINS: readonly Role[] = [
  "conductor",
  "contact",
  "protection",
  "shunt",
  "resistor",
  "coil",
  "load",
  "diode",
  "driver",
  "source",
];
const MAINS = ["L", "N"] as const;

export const acDcJoined = defineCheck({
  id: "ac-dc-joined",
  group: "shorts",
  title: "Mains joined to the vehicle's own circuits",
  about:
    "Looks at L and N of every charger and inlet, plugged in and not: neither may lead to the traction circuit, to the 12 V side or to the chassis. The protective conductor may, and must, lead to the chassis. A charger whose two sides are one metal inside joins them by its make. It cannot see the house's own wiring.",
  severities: ["DANGER", "WARNING", "NOTICE"],
  source: { text: "100 ohm per volt between circuits that count as separate, UN R100 annex 5A", known: "seen" },
  reads: "states",
  withstands: { splice: true, busbar: true, connector: true, contact: true, rename: true },
  without: {},
  messages: {
    joined: {
      title: "The mains at {mains} are joined to {circuit} through {way}.",
      why: "While the vehicle is plugged in its metal or its battery hangs on the house's mains, and whoever touches it may be killed.",
      mend: "Take off what joins them: L and N go to the charger's input and nowhere else, and only PE goes to the chassis.",
    },
    insideProtected: {
      title: "{part} joins the mains and the pack inside; a residual-current device stands guard.",
      why: "While plugged in the whole pack is part of the mains, and any leak to the body trips the device in the house.",
      mend: "Keep the pack's isolation high, test the device's button before each charge, or use a charger with isolation.",
    },
    inside: {
      title: "{part} joins the mains and the pack inside, and no residual-current device is stated.",
      why: "While plugged in the whole pack is part of the mains: a leak to the body puts mains voltage on it and nothing switches it off.",
      mend: "Use a charger with isolation, or feed this one only through a residual-current device and state it.",
    },
  },
  reasons: { isolation: "Whether mains and pack are separate inside {part} is not stated." },
  run(analysis, report) {
    const told = new Set<NodeIndex>();
    const onMains = analysis.network.parts.filter(
      ({ kind }) => kind.traits.charger === true || kind.traits.inlet === true,
    );
    for (const part of onMains.sort((a, b) => Number(a.part.id.slice(1)) - Number(b.part.id.slice(1)))) {
      const joined = joinOf(analysis, part);
      if (joined !== undefined) {
        // Charger and inlet on one mains lead have one mistake between them.
        if (joined.mains.some((node) => told.has(node))) continue;
        for (const node of joined.mains) told.add(node);
        report.fails({
          message: "joined",
          facts: {
            mains: { place: terminalPlace(part, joined.terminal) },
            circuit: joined.circuit,
            way: { places: joined.way },
          },
          severity: "DANGER",
          where: [terminalPlace(part, joined.terminal), ...joined.way],
          states: joined.states,
        });
      } else if (part.kind.traits.charger === true) judgeInside(analysis, part, report);
      else report.passes(partPlace(part));
    }
  },
});

function judgeInside(analysis: Analysis, part: NetworkPart, report: Report): void {
  const place = partPlace(part);
  const isolated = part.values.choice("isolated");
  if (isolated === undefined) {
    const missing = [{ part: part.part.id, parameter: "isolated" }];
    report.notChecked({ where: [place], reason: "isolation", facts: { part: { place } }, missing });
  } else if (isolated === "yes") report.passes(place);
  else {
    const guarded = [part, ...inletsOf(analysis, part)].some(
      ({ values }) => values.choice("residualCurrentDevice") === "yes",
    );
    report.fails({
      message: guarded ? "insideProtected" : "inside",
      facts: { part: { place } },
      severity: guarded ? "NOTICE" : "WARNING",
      where: [place],
    });
  }
}

interface Join {
  readonly terminal: string;
  readonly circuit: string;
  readonly way: readonly Place[];
  readonly states: readonly string[];
  /** Everything on the mains side, to tell the same mistake at another part. */
  readonly mains: readonly NodeIndex[];
}

function joinOf(analysis: Analysis, part: NetworkPart): Join | undefined {
  const { network } = analysis;
  let found: Join | undefined;
  const states: string[] = [];
  const without = insideChargers(analysis);
  for (const state of [...analysis.states, ...analysis.plugged]) {
    for (const terminal of MAINS) {
      const node = part.nodes.get(terminal);
      if (node === undefined || network.wiresAt([part.part.id, terminal]).length === 0) continue;
      const way = wayOut(analysis, state, node, without);
      if (way === undefined) continue;
      states.push(state.name);
      found ??= { terminal, ...way, states };
      break;
    }
  }
  return found === undefined ? undefined : { ...found, states: [...new Set(states)] };
}

/** The metal inside a charger without isolation: told of by itself. */
function insideChargers(analysis: Analysis): readonly number[] {
  return analysis.network.branches.flatMap(({ index, part, role, a, b }) => {
    if (part?.kind.traits.charger !== true || role !== "conductor") return [];
    const mains = MAINS.map((terminal) => part.nodes.get(terminal));
    return mains.includes(a) || mains.includes(b) ? [index] : [];
  });
}

/** From the mains to the nearest circuit of the vehicle that is joined to it by less than 100 ohm per volt of the mains. */
function wayOut(
  analysis: Analysis,
  state: SolvedState,
  node: NodeIndex,
  without: readonly number[],
): Omit<Join, "terminal" | "states"> | undefined {
  const query = { through: JOINS, without };
  const mains = analysis.reach(state, node, query);
  const targets = [
    { node: CHASSIS_NODE, circuit: "the chassis" },
    ...analysis.packs.flatMap(({ duty, positive, negative }) =>
      [positive, negative].map((pole) => ({
        node: pole,
        circuit: duty === "traction" ? "the traction circuit" : "the 12 V side",
      })),
    ),
  ];
  const hit = targets.filter((target) => mains.has(target.node));
  if (hit.length === 0) return undefined;
  const opened = without.length === 0 ? state : analysis.solveChanged(state, { open: without, hold: true });
  const near = hit.find((target) => analysis.resistanceBetween(opened, node, target.node) < ISOLATION_DC * MAINS_VOLTS);
  if (near === undefined) return undefined;
  const way = analysis.path(state, node, near.node, query) ?? [];
  return { circuit: near.circuit, way: branchPlaces(way), mains: [...mains] };
}

/** The commonest mains in this trade's Europe, IEC 60038 (memory); on 120 V the limit is lower and a join lies far below both. */
const MAINS_VOLTS = 230;

/** Inlets from which this charger is fed in any state. */
function inletsOf(analysis: Analysis, charger: NetworkPart): readonly NetworkPart[] {
  const inlets = analysis.network.parts.filter(({ kind }) => kind.traits.inlet === true);
  return inlets.filter((inlet) =>
    MAINS.some((terminal) => {
      const [from, to] = [charger.nodes.get(terminal), inlet.nodes.get(terminal)];
      if (from === undefined || to === undefined) return false;
      return [...analysis.states, ...analysis.plugged].some((state) =>
        analysis.reach(state, from, { through: ["conductor", "contact", "protection"] }).has(to),
      );
    }),
  );
}
