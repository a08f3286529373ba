/** Random edits, for property tests: each is made from a few numbers and whatever the drawing then holds. */
import fc from "fast-check";
import { acceptFinding } from "../../../core/project/commands/accept-finding.ts";
import { addCable } from "../../../core/project/commands/add-cable.ts";
import { addEnclosure } from "../../../core/project/commands/add-enclosure.ts";
import { addPart } from "../../../core/project/commands/add-part.ts";
import { addReading } from "../../../core/project/commands/add-reading.ts";
import { addSheet } from "../../../core/project/commands/add-sheet.ts";
import { addState } from "../../../core/project/commands/add-state.ts";
import { addZone } from "../../../core/project/commands/add-zone.ts";
import { changeState } from "../../../core/project/commands/change-state.ts";
import { connect } from "../../../core/project/commands/connect.ts";
import { declareSharedNegative } from "../../../core/project/commands/declare-shared-negative.ts";
import { Refused } from "../../../core/project/commands/define.ts";
import type { Command } from "../../../core/project/commands/define.ts";
import { deleteEntries } from "../../../core/project/commands/delete.ts";
import { moveView } from "../../../core/project/commands/move-view.ts";
import { nameNet } from "../../../core/project/commands/name-net.ts";
import { reconnect } from "../../../core/project/commands/reconnect.ts";
import { removeCable } from "../../../core/project/commands/remove-cable.ts";
import { removeEnclosure } from "../../../core/project/commands/remove-enclosure.ts";
import { removeReading } from "../../../core/project/commands/remove-reading.ts";
import { removeSheet } from "../../../core/project/commands/remove-sheet.ts";
import { removeState } from "../../../core/project/commands/remove-state.ts";
import { removeZone } from "../../../core/project/commands/remove-zone.ts";
import { rename } from "../../../core/project/commands/rename.ts";
import { setEnclosure } from "../../../core/project/commands/set-enclosure.ts";
import { setParameter } from "../../../core/project/commands/set-parameter.ts";
import { setPartField } from "../../../core/project/commands/set-part-field.ts";
import { setSheet } from "../../../core/project/commands/set-sheet.ts";
import { setTitle } from "../../../core/project/commands/set-title.ts";
import { setWireField } from "../../../core/project/commands/set-wire-field.ts";
import { setZone } from "../../../core/project/commands/set-zone.ts";
import { swapWireEnds } from "../../../core/project/commands/swap-wire-ends.ts";
import { turnView } from "../../../core/project/commands/turn-view.ts";
import { unplaceView } from "../../../core/project/commands/unplace-view.ts";
import { withdrawAcceptance } from "../../../core/project/commands/withdraw-acceptance.ts";
import type { Project, WireEnd } from "../../../core/project/document.ts";
import { perform, startHistory } from "../../../core/project/history.ts";
import type { History } from "../../../core/project/history.ts";
import { knownPart } from "../../../core/project/lookup.ts";
import { newProject } from "../../../core/project/new-project.ts";
import { TEST_KINDS } from "./test-kinds.ts";

/** Which edit, and the dice that it throws. */
export interface Edit {
  readonly which: number;
  readonly dice: readonly number[];
  readonly gesture: string | undefined;
}

export const edit: fc.Arbitrary<Edit> = fc.record({
  which: fc.nat(1000),
  dice: fc.array(fc.nat(10_000), { minLength: 8, maxLength: 8 }),
  gesture: fc.option(fc.constantFrom("drag", "paste"), { nil: undefined, freq: 4 }),
});

type Roll = <T>(choices: readonly T[]) => T | undefined;
type Run = <A, R>(command: Command<A, R>, given: A) => void;

const EDITS: readonly ((project: Project, roll: Roll, run: Run) => void)[] = [
  (project, roll, run) => {
    const sheet = roll(project.sheets);
    const fields = roll([
      { paper: "A4" },
      { orientation: "portrait" },
      { paper: "A3", orientation: "landscape" },
    ] as const);
    if (sheet && fields) run(setSheet, { sheet: sheet.id, fields });
  },
  (project, roll, run) => {
    const by = roll(project.parts.filter(({ kind }) => TEST_KINDS.get(kind)?.control !== undefined));
    const name = roll(["towing", "washing", "on-a-slope", "Not so"]) ?? "towing";
    const from = roll(["driving", "parked", "ready", "nowhere"]) ?? "driving";
    run(addState, { name, from, set: by === undefined ? {} : { [by.id]: roll(["on", "off", "sideways"]) ?? "on" } });
  },
  (project, roll, run) => {
    const state = roll(project.states)?.name ?? "towing";
    const by = roll(project.parts.filter(({ kind }) => TEST_KINDS.get(kind)?.control !== undefined));
    const name = roll([undefined, "towing-2", "washing"]);
    run(changeState, {
      state,
      ...(name === undefined ? {} : { name }),
      set: by === undefined ? {} : { [by.id]: roll(["off", "on", null]) ?? null },
    });
  },
  (project, roll, run) => run(removeState, { state: roll(project.states)?.name ?? "towing" }),
  (project, roll, run) => {
    const zone = roll(project.zones);
    if (zone)
      run(setZone, { zone: zone.id, fields: { kind: "engine", ambient: roll(["60", "60 °C", null, undefined]) } });
  },
  (project, roll, run) => {
    const enclosure = roll(project.enclosures);
    const zone = roll([undefined, ...project.zones])?.id;
    const toolClosed = roll([true, false, null, undefined]);
    if (enclosure) run(setEnclosure, { enclosure: enclosure.id, fields: { zone, toolClosed } });
  },
  (project, roll, run) => {
    const kind = roll([...TEST_KINDS.keys()]) ?? "";
    const zone = roll([undefined, ...project.zones])?.id;
    run(addPart, {
      kind,
      ...(zone === undefined ? {} : { zone }),
      parameters: kind === "battery-block" ? { resistance: roll(["3 mohm", "4k7", null]) ?? null } : {},
    });
  },
  (project, roll, run) => {
    const fields = { size: roll(["50mm2", "2/0", null, undefined]), length: roll(["40 cm", "1 ft", null, undefined]) };
    run(connect, { from: end(project, roll), to: end(project, roll), fields });
  },
  (project, roll, run) => {
    const part = roll(project.parts);
    const wire = roll(project.wires);
    if (part && wire)
      run(
        deleteEntries,
        roll([{ parts: [part.id] }, { wires: [wire.id] }, { parts: [part.id], wires: [wire.id] }]) ?? {},
      );
  },
  (project, roll, run) => {
    const part = roll(project.parts);
    if (!part) return;
    const view = roll(knownPart(part, TEST_KINDS)?.views() ?? [])?.id ?? "";
    const sheet = roll(project.sheets)?.id;
    const move = { part: part.id, view, x: (roll([0, 1, 2, 3.5]) ?? 0) * 5, y: 10 };
    run(moveView, { moves: [sheet === undefined ? move : { ...move, sheet }] });
  },
  (project, roll, run) => {
    const part = roll(project.parts);
    const view = roll(part?.views ?? [])?.view ?? "none";
    if (part)
      run(turnView, {
        part: part.id,
        view,
        how: roll(["clockwise", "half", "anticlockwise", "mirror"] as const) ?? "half",
      });
  },
  (project, roll, run) => {
    const part = roll(project.parts);
    const view = roll(part?.views ?? [])?.view;
    if (part && view !== undefined) run(unplaceView, { part: part.id, view });
  },
  (project, roll, run) => {
    const part = roll(project.parts.filter(({ kind }) => kind === "busbar"));
    if (part)
      run(setParameter, {
        changes: [{ part: part.id, name: "positions", value: roll(["1", "2", "6", null, undefined]) }],
      });
  },
  (project, roll, run) => {
    const part = roll(project.parts);
    const terminal = part && roll(knownPart(part, TEST_KINDS)?.terminals ?? [])?.id;
    if (part && terminal !== undefined) {
      const value = roll(["bare", "Booted", "polished"]);
      run(setParameter, { changes: [{ part: part.id, name: roll(["finish", `finish-${terminal}`]) ?? "", value }] });
    }
  },
  (project, roll, run) => {
    const part = roll(project.parts);
    const terminal = part && roll(knownPart(part, TEST_KINDS)?.terminals ?? [])?.id;
    const enclosure = roll([undefined, ...project.enclosures])?.id;
    if (part)
      run(setPartField, {
        changes: [
          {
            part: part.id,
            fields: {
              enclosure,
              covers: terminal === undefined ? undefined : [terminal],
              note: roll(["spare", undefined]),
            },
          },
        ],
      });
  },
  (project, roll, run) => {
    const wires = [roll(project.wires), roll(project.wires)].filter((wire) => wire !== undefined);
    const zone = roll(project.zones)?.id;
    const fields = {
      colour: roll(["red", "OG", "mauve", null]),
      zones: zone === undefined ? undefined : [zone],
      cable: roll([undefined, ...project.cables])?.id,
    };
    run(setWireField, { changes: wires.map((wire) => ({ wire: wire.id, fields })) });
  },
  (project, roll, run) => {
    const wire = roll(project.wires);
    const sheet = roll(project.sheets)?.id;
    if (wire && sheet !== undefined)
      run(setWireField, {
        changes: [
          {
            wire: wire.id,
            fields: {
              routes: [
                {
                  sheet,
                  points: [
                    [0, 0],
                    [roll([5, 7.5]) ?? 0, 5],
                  ],
                },
              ],
              boots: [true, null],
            },
          },
        ],
      });
  },
  (project, roll, run) => {
    const part = roll(project.parts);
    const wire = roll(project.wires);
    if (part) run(rename, { what: "part", id: part.id, name: roll(["F1", "F2a", "fuse one"]) ?? "" });
    else if (wire) run(rename, { what: "wire", id: wire.id, name: roll(["", "W7"]) ?? "" });
  },
  (project, roll, run) => {
    const wire = roll(project.wires);
    if (wire) run(reconnect, { wire: wire.id, end: roll([0, 1] as const) ?? 0, to: end(project, roll) });
  },
  (project, roll, run) => {
    const [a, b] = [roll(project.wires), roll(project.wires)];
    if (a && b)
      run(swapWireEnds, {
        a: { wire: a.id, end: roll([0, 1] as const) ?? 0 },
        b: { wire: b.id, end: roll([0, 1] as const) ?? 0 },
      });
  },
  (_, roll, run) =>
    run(addSheet, { name: "next", paper: roll(["A4", "Letter"] as const) ?? "A4", orientation: "portrait" }),
  (project, roll, run) => run(removeSheet, { sheet: roll(project.sheets)?.id ?? "s99" }),
  (_, roll, run) =>
    run(addZone, {
      kind: roll(["outside", "other"] as const) ?? "other",
      ambient: roll(["40 °C", "104 F", "warm"]) ?? null,
    }),
  (project, roll, run) => run(removeZone, { zone: roll(project.zones)?.id ?? "z99" }),
  (project, roll, run) => {
    const zone = roll([undefined, ...project.zones])?.id;
    run(addEnclosure, {
      name: "box",
      toolClosed: roll([true, false, null]) ?? null,
      ...(zone === undefined ? {} : { zone }),
    });
  },
  (project, roll, run) => run(removeEnclosure, { enclosure: roll(project.enclosures)?.id ?? "e99" }),
  (_, roll, run) => run(addCable, { name: "loom", sheath: roll([true, null]) ?? null }),
  (project, roll, run) => run(removeCable, { cable: roll(project.cables)?.id ?? "c99" }),
  (_, roll, run) => run(setTitle, { vehicle: roll(["tug", undefined]), date: "2026-11-20" }),
  (_, roll, run) => run(declareSharedNegative, { value: roll([true, false, null, undefined]) }),
  (_, roll, run) =>
    run(acceptFinding, {
      key: roll(["a", "b"]) ?? "",
      who: "Ada",
      when: "2026-11-20",
      why: roll(["so", ""]) ?? "",
      hash: "1",
    }),
  (_, roll, run) => run(withdrawAcceptance, { key: roll(["a", "b"]) ?? "" }),
  (project, roll, run) => {
    const at = end(project, roll);
    if (at !== null) run(nameNet, { at, name: roll(["bus", null]) ?? null });
  },
  (project, roll, run) => {
    const at = end(project, roll);
    const named = project.parts.find(({ id }) => id === at?.[0])?.designation;
    const plus = at === null || named === undefined ? "nowhere" : `${named}:${at[1]}`;
    const state = roll(["parked", "driving", "nowhere"]) ?? "";
    run(addReading, { state, plus, minus: roll(["chassis", plus]) ?? "", volts: roll(["12.6", "-3 V", "lots"]) ?? "" });
  },
  (_, roll, run) => run(removeReading, { index: roll([0, 1, 99]) ?? 0 }),
];

/** Any terminal of the drawing, sometimes one that is not there, sometimes none. */
function end(project: Project, roll: Roll): WireEnd | null {
  const part = roll(project.parts);
  if (!part) return null;
  const terminals = (knownPart(part, TEST_KINDS)?.terminals ?? []).map(({ id }) => id);
  const terminal = roll([...terminals, "nowhere", null]);
  return terminal === null || terminal === undefined ? null : [part.id, terminal];
}

/** Carries one edit out; a refusal must be a sentence and leave the history as it was. */
export function performEdit(history: History, { which, dice, gesture }: Edit): History {
  let thrown = 0;
  let after = history;
  const roll: Roll = (choices) => choices[(dice[thrown++ % dice.length] ?? 0) % Math.max(1, choices.length)];
  const run: Run = (command, given) => {
    try {
      after = perform(history, command, given, TEST_KINDS, gesture).history;
    } catch (refusal) {
      if (!(refusal instanceof Refused)) throw refusal;
      if (!/^[^\n]+[.?]$/.test(refusal.message)) throw new Error(`Not a sentence: ${refusal.message}`);
    }
  };
  EDITS[which % EDITS.length]?.(history.present, roll, run);
  return after;
}

/** A small drawing to begin with: one part of each kind, a wire, a placed view. */
export function smallDrawing(): Project {
  let history = [...TEST_KINDS.keys()].reduce(
    (at, kind) => perform(at, addPart, { kind }, TEST_KINDS).history,
    startHistory(newProject()),
  );
  history = perform(history, connect, { from: ["p1", "+"], to: ["p2", "1"] }, TEST_KINDS).history;
  const moves = [{ part: "p1", view: "main", x: 50, y: 50 }];
  return perform(history, moveView, { moves }, TEST_KINDS).history.present;
}

export const EDIT_COUNT = EDITS.length;
