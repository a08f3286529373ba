import type { Analysis, Pack, SolvedState } from "../../circuit/analysis.ts";
import { netOf } from "../../circuit/questions.ts";
import type { Branch, NodeIndex } from "../../network/network.ts";
import { KINDS } from "../../parts/catalogue.ts";
import type { Role } from "../../parts/element.ts";
import { execute } from "../../project/commands/define.ts";
import { reconnect } from "../../project/commands/reconnect.ts";
import type { WireEnd } from "../../project/document.ts";
import { defineCheck } from "../define.ts";
import type { Remedy } from "../define.ts";
import { ClosedFeed, closedFeed } from "../words/closed-feed.ts";
import { chargerOutputs } from "../words/charger-outputs.ts";
import type { ChargerOutput } from "../words/charger-outputs.ts";
import { partPlace } from "../words/places.ts";
import { packVolts } from "../words/traction-pairs.ts";
import { maybeClosed, undecidedFields } from "../words/undecided.ts";

const METAL: readonly Role[] = ["conductor", "contact", "protection", "shunt", "source"];

export const chargerLiveAtDisconnect = defineCheck({
  id: "charger-live-at-disconnect",
  group: "charging",
  title: "Charger's leads live with the disconnect out",
  about:
    "Stores the vehicle with its disconnect out and looks whether wires, closed contacts and fuses still join a charger's output to the pack. Where every way passes a fuse or breaker it is a notice, since a charger ahead of the disconnect is common; how far that device is from the pack belongs to another check. Without a disconnect there is nothing to look at.",
  severities: ["WARNING", "NOTICE"],
  source: { text: "Common practice", known: "none" },
  reads: "states",
  withstands: { splice: true, busbar: true, connector: true, contact: true, rename: true },
  without: {},
  messages: {
    unfused: {
      title: "With the disconnect out the leads of {charger} stay on the pack ({volts}), and no fuse is between.",
      why: "Whoever pulls the disconnect takes everything behind it for dead; a spanner or a chafed lead here still has the whole pack behind it.",
      mend: "Take the leads of {charger} to the side of the disconnect that goes dead, or put a fuse into them right at the pack.",
    },
    fused: {
      title: "With the disconnect out the leads of {charger} stay on the pack ({volts}), behind a fuse.",
      why: "Charging works with the disconnect out, but its leads are still live for whoever pulls it to work on the vehicle.",
      mend: "Mark the leads of {charger} as live at all times, or take them to the side of the disconnect that goes dead.",
    },
  },
  reasons: {
    undecided:
      "Whether the leads of {charger} go dead with the disconnect depends on what is not stated about a contact.",
  },
  run(analysis, report) {
    const stored = analysis.state("stored");
    const outputs = chargerOutputs(analysis);
    if (stored === undefined || outputs.length === 0) {
      report.doesNotApply();
      return;
    }
    for (const output of outputs) {
      const { part, place, plus, minus, packs } = output;
      const facts = { charger: { place: partPlace(part) } };
      if (!closedFeed(analysis, stored).isFed(plus, minus)) {
        const also = maybeClosed(analysis, stored);
        const open = also.size > 0 && new ClosedFeed(analysis, stored, { also }).isFed(plus, minus);
        if (open) report.notChecked({ where: [place], reason: "undecided", facts, missing: undecidedFields(analysis) });
        else report.passes(place);
        continue;
      }
      const without = new Set(
        analysis.network.branches.filter(({ role }) => role === "protection").map(({ index }) => index),
      );
      const isFused = !new ClosedFeed(analysis, stored, { without }).isFed(plus, minus);
      const volts = packVolts(packs);
      report.fails({
        message: isFused ? "fused" : "unfused",
        facts: { ...facts, volts: { value: volts, dimension: "voltage" } },
        severity: isFused ? "NOTICE" : "WARNING",
        where: [place],
        states: [stored.name],
        value: volts,
        unit: "V",
        remedies: isFused ? [] : moves(analysis, stored, output),
      });
    }
  },
});

/** A lead of the charger that ends at the same point as a disconnect: its end goes to the disconnect's other side. */
function moves(analysis: Analysis, stored: SolvedState, { plus, minus, packs }: ChargerOutput): readonly Remedy[] {
  const [pack] = packs;
  if (pack === undefined) return [];
  const ways: readonly (readonly [NodeIndex, NodeIndex])[] = [
    [pack.positive, plus],
    [pack.negative, minus],
  ];
  for (const [from, to] of ways) {
    const way = analysis.path(stored, from, to, { through: METAL }) ?? [];
    for (const branch of [...way].reverse()) {
      const found = branch.conductor === undefined ? undefined : otherSide(analysis, stored, branch, pack);
      if (found === undefined) continue;
      const { end, terminal } = found;
      const wire = branch.conductor?.wire.id ?? "";
      return [
        {
          id: "behind-disconnect",
          label: "Move the charger's lead to the dead side of the disconnect",
          apply: (project) => execute(project, reconnect, { wire, end, to: terminal }, KINDS).project,
        },
      ];
    }
  }
  return [];
}

/** The end of a wire that meets an open disconnect, and the terminal on the disconnect's far side. */
function otherSide(
  analysis: Analysis,
  stored: SolvedState,
  { conductor }: Branch,
  pack: Pack,
): { readonly end: 0 | 1; readonly terminal: WireEnd } | undefined {
  const { network } = analysis;
  for (const end of [0, 1] as const) {
    const node = end === 0 ? conductor?.a : conductor?.b;
    const net = node === undefined ? undefined : netOf(network, node);
    for (const { index, part, a, b } of network.branches) {
      if (part?.kind.traits.disconnect !== true || stored.elements[index]?.type !== "contact") continue;
      const far = net?.nodes.includes(a) === true ? b : net?.nodes.includes(b) === true ? a : undefined;
      const terminal = far === undefined ? undefined : network.terminalOfNode[far];
      if (far === undefined || terminal === undefined) continue;
      if (!closedFeed(analysis, stored).packsAt(far).includes(pack)) return { end, terminal };
    }
  }
  return undefined;
}
