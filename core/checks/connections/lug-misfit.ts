/** A lug whose hole is not that of the stud it sits on. */
import type { NetworkPart } from "../../network/network.ts";
import type { Wire } from "../../project/document.ts";
import { metricThread, STUD_SIZE_SOURCE } from "../../standards/stud-sizes.ts";
import type { Report } from "../define.ts";
import { defineCheck } from "../define.ts";
import { fitLug } from "../remedies/state-wire.ts";
import { terminalPlace } from "../words/places.ts";

function lookAt(wire: Wire, side: 0 | 1, part: NetworkPart, terminal: string, stud: string, report: Report): void {
  const place = terminalPlace(part, terminal);
  const lug = wire.lugs?.[side];
  if (lug === undefined || lug === null) {
    report.notChecked({
      where: [{ wire: wire.id }, place],
      reason: "unknown",
      facts: { wire: { place: { wire: wire.id } }, terminal: { place } },
      missing: [{ wire: wire.id, field: "lugs" }],
    });
    return;
  }
  const [hole, thread] = [metricThread(lug), metricThread(stud)];
  if (hole === undefined || thread === undefined) {
    report.notChecked({
      where: [{ wire: wire.id }, place],
      reason: "unread",
      facts: { lug, stud },
      missing: [{ wire: wire.id, field: "lugs" }],
    });
    return;
  }
  if (hole === thread) {
    report.passes({ wire: wire.id });
    return;
  }
  report.fails({
    message: hole < thread ? "small" : "large",
    facts: { lug, stud, wire: { place: { wire: wire.id } }, terminal: { place } },
    severity: "NOTICE",
    where: [{ wire: wire.id }, place],
    remedies: [fitLug(wire, side, stud, `${part.part.designation}:${terminal}`)],
  });
}

/** Studs of a part's terminals, by terminal. */
function studsOf(part: NetworkPart): ReadonlyMap<string, string> {
  const places = part.kind.face(part.values).terminals;
  return new Map(
    part.terminals.flatMap(({ id, form }): [string, string][] => {
      const stud = places[id]?.stud;
      return form === "stud" && stud !== undefined ? [[id, stud]] : [];
    }),
  );
}

export const lugMisfit = defineCheck({
  id: "lug-misfit",
  group: "connections",
  title: "Lug does not fit the stud",
  about:
    "Compares the hole of every lug with the stud that the kind of part has. The sizes of studs are those usual for the kind, so hold the lug against the real part. Whether a lug's barrel takes the wire's size is not in the drawing and is not checked.",
  severities: ["NOTICE"],
  source: STUD_SIZE_SOURCE,
  reads: "document",
  withstands: { splice: true, busbar: true, connector: true, contact: true, rename: true },
  without: {},
  messages: {
    small: {
      title: "The lug of {wire} for {lug} does not go over the {stud} stud {terminal}.",
      why: "It will not go on, and a hole drilled larger leaves too little metal around it, so that the lug gets hot.",
      mend: "Order a lug for {stud} at this end, or state what lug the real stud takes.",
    },
    large: {
      title: "The lug of {wire} for {lug} is too wide for the {stud} stud {terminal}.",
      why: "A hole with play rests on a thin ring of metal: the joint is hot under load and works loose.",
      mend: "Order a lug for {stud} at this end, or state what lug the real stud takes.",
    },
  },
  reasons: {
    unknown: "The lug of {wire} at {terminal} is not stated.",
    unread: "A lug for {lug} cannot be compared with a stud of {stud}.",
  },
  run({ network }, report) {
    const studs = new Map(network.parts.map((part) => [part.part.id, studsOf(part)]));
    for (const wire of network.project.wires) {
      for (const side of [0, 1] as const) {
        const end = wire.ends[side];
        const part = end === null ? undefined : network.partById.get(end[0]);
        const stud = end === null ? undefined : studs.get(end[0])?.get(end[1]);
        if (end === null || part === undefined || stud === undefined) report.doesNotApply({ wire: wire.id });
        else lookAt(wire, side, part, end[1], stud, report);
      }
    }
  },
});
