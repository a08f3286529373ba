import type { Analysis } from "../../circuit/analysis.ts";
import { netAt } from "../../circuit/questions.ts";
import type { Branch, NodeIndex } from "../../network/network.ts";
import { KINDS } from "../../parts/catalogue.ts";
import { execute } from "../../project/commands/define.ts";
import { reconnect } from "../../project/commands/reconnect.ts";
import { defineCheck } from "../define.ts";
import type { Remedy } from "../define.ts";
import { closedFeed } from "../words/closed-feed.ts";
import { partPlace, terminalPlace } from "../words/places.ts";
import { drivePairs } from "../words/traction-pairs.ts";
import type { TractionPair } from "../words/traction-pairs.ts";

const SENSE = "pack-sense";
type Side = "source-side" | "load-side";

export const senseSideWrong = defineCheck({
  id: "sense-side-wrong",
  group: "charging",
  title: "Sense lead on the wrong side of the contactor",
  about:
    "Looks at the sense input of every controller in a state in which a contactor is open between the pack and the controller: the lead is then joined either to the pack or to the controller's own studs. It is held against the side that the controller asks for. A lead that nothing joins to either of the two in such a state is not judged.",
  severities: ["WARNING"],
  source: { text: "The controller's own manual, as stated on the drawing", known: "none" },
  reads: "states",
  withstands: { splice: true, busbar: true, connector: true, contact: true, rename: true },
  without: {},
  messages: {
    load: {
      title: "{sense} sits behind the open contactor, and {controller} asks for the battery's side of it.",
      why: "The reading then holds the drop of contactor, cable and lugs as well, so that the controller trips on low voltage on a hard pull, and it cannot compare the two sides before it closes.",
      mend: "Take the lead of {sense} to the battery's side of the contactor, with a small fuse where it leaves.",
    },
    source: {
      title: "{sense} sits on the battery's side of the open contactor, and {controller} asks for its load side.",
      why: "The controller watches its own capacitors charge by this input; on the battery's side it reads full at once and closes the contactor onto empty capacitors.",
      mend: "Take the lead of {sense} to the controller's side of the contactor.",
    },
  },
  reasons: {
    unstated: "Which side of the contactor {sense} has to be on is not stated for {controller}.",
  },
  run(analysis, report) {
    let applies = false;
    for (const pair of drivePairs(analysis)) {
      const { part } = pair;
      const node = part.nodes.get(SENSE);
      const isWired = analysis.network.wiresAt([part.part.id, SENSE]).length > 0;
      if (node === undefined || !isWired) continue;
      const found = sideOf(analysis, pair, node);
      if (found === undefined) continue;
      applies = true;
      const place = terminalPlace(part, SENSE);
      const facts = { sense: { place }, controller: { place: partPlace(part) } };
      const asked = part.values.choice("packSense");
      if (asked === undefined)
        report.notChecked({
          where: [place],
          reason: "unstated",
          facts,
          missing: [{ part: part.part.id, parameter: "packSense" }],
        });
      else if (asked === found.side) report.passes(place);
      else {
        report.fails({
          message: found.side === "load-side" ? "load" : "source",
          facts,
          severity: "WARNING",
          where: [place],
          states: found.states,
          remedies: moves(analysis, pair, found),
        });
      }
    }
    if (!applies) report.doesNotApply();
  },
});

interface Sensed {
  readonly side: Side;
  readonly states: readonly string[];
}

/** On which side of what is open between pack and controller a lead is, and in which states that shows. */
function sideOf(analysis: Analysis, { packs, plus }: TractionPair, node: NodeIndex): Sensed | undefined {
  const sides = analysis.states.flatMap((state) => {
    const feed = closedFeed(analysis, state);
    const own = feed.island(plus);
    const sources = packs.map(({ positive }) => feed.island(positive));
    if (sources.includes(own)) return [];
    const at = feed.island(node);
    const side: Side | undefined = at === own ? "load-side" : sources.includes(at) ? "source-side" : undefined;
    return side === undefined ? [] : [{ side, state: state.name }];
  });
  const [first] = sides;
  if (first === undefined) return undefined;
  return { side: first.side, states: sides.filter(({ side }) => side === first.side).map(({ state }) => state) };
}

/** The only wire at the input goes straight to a powered contact that is open: its far end goes to the side asked for. */
function moves(analysis: Analysis, { part: { part }, packs, plus }: TractionPair, found: Sensed): readonly Remedy[] {
  const { network } = analysis;
  const [wire, ...more] = network.wiresAt([part.id, SENSE]);
  if (wire === undefined || more.length > 0) return [];
  const end = wire.ends[0]?.[0] === part.id && wire.ends[0][1] === SENSE ? 1 : 0;
  const far = wire.ends[end];
  const net = far == null ? undefined : netAt(network, far);
  const goals = found.side === "load-side" ? packs.map(({ positive }) => positive) : [plus];
  const contact = network.branches.find(({ index, a, b }) => {
    if ((net?.nodes.includes(a) === true) === (net?.nodes.includes(b) === true)) return false;
    const across = acrossFrom({ a, b }, net?.nodes ?? []);
    // A disconnect that is out in one of the states parts the pack from the contactor as well.
    return found.states.some((name) => {
      const state = analysis.state(name);
      const element = state?.elements[index];
      if (state === undefined || element?.type !== "contact" || element.closed || element.movedBy !== "coil")
        return false;
      const feed = closedFeed(analysis, state);
      return goals.some((goal) => feed.island(goal) === feed.island(across));
    });
  });
  const to = contact === undefined ? undefined : network.terminalOfNode[acrossFrom(contact, net?.nodes ?? [])];
  if (to === undefined) return [];
  return [
    {
      id: "other-side",
      label: "Move the sense lead to the other side of the contactor",
      apply: (project) => execute(project, reconnect, { wire: wire.id, end, to }, KINDS).project,
    },
  ];
}

const acrossFrom = ({ a, b }: Pick<Branch, "a" | "b">, nodes: readonly NodeIndex[]): NodeIndex =>
  nodes.includes(a) ? b : a;
