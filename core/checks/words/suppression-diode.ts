/** The edit that puts a diode across a coil: ring (cathode) on the side that is plus while the coil is on. */
import type { Analysis } from "../../circuit/analysis.ts";
import type { Box } from "../../geometry/display.ts";
import { containsBox, inflate, overlap } from "../../geometry/boxes.ts";
import { labelBox, labelOf } from "../../layout/label.ts";
import { frameOf, titleBlockOf } from "../../layout/paper.ts";
import { placedView, placedViews } from "../../layout/placed-view.ts";
import { routedSheet } from "../../layout/route.ts";
import { KINDS } from "../../parts/catalogue.ts";
import { readValues } from "../../parts/values.ts";
import { addPart } from "../../project/commands/add-part.ts";
import { connect } from "../../project/commands/connect.ts";
import { execute } from "../../project/commands/define.ts";
import type { Part, Project, ViewPlacement, Wire, WireEnd } from "../../project/document.ts";
import type { Remedy } from "../define.ts";
import type { CoilAt } from "./coils.ts";
import { sampleBefore } from "./in-time.ts";
import type { TurnOffAt } from "./turn-offs.ts";

/** Places are multiples of this, and looked for in rings around the coil up to this far off. */
const GRID = 2.5;
const STEP = 5;
const FARTHEST = 200;
const GAP = 5;
/** Lead from a diode to the coil that it lies on. */
const LEAD = "0.1 m";

/** Empty where the coil is on no sheet or no room is left beside it. */
export function suppressionDiode(
  { network: { project } }: Analysis,
  { part, coil, plus, minus }: CoilAt,
  { transition, turnOff }: TurnOffAt,
): readonly Remedy[] {
  const before = sampleBefore(transition, turnOff.time);
  const volts = (transition.volts(plus)[before] ?? 0) - (transition.volts(minus)[before] ?? 0);
  const [positive, negative] = volts >= 0 ? [coil.plus, coil.minus] : [coil.minus, coil.plus];
  const place = freePlace(project, part.part, coil.plus);
  if (place === undefined) return [];
  return [
    {
      id: "suppression-diode",
      label: `Put a diode across the coil of ${part.part.designation}`,
      apply: (before) => withDiode(before, part.part, [positive, negative], place),
    },
  ];
}

function withDiode(
  project: Project,
  { id, zone, enclosure }: Part,
  [positive, negative]: readonly [string, string],
  place: ViewPlacement,
): Project {
  const added = execute(
    project,
    addPart,
    {
      kind: "diode",
      views: [place],
      ...(zone === undefined ? {} : { zone }),
      ...(enclosure === undefined ? {} : { enclosure }),
    },
    KINDS,
  );
  const diode = added.result;
  const lead = (done: Project, from: WireEnd, to: WireEnd): Project =>
    execute(done, connect, { from, to, fields: { ...likeAt(project, to), length: LEAD } }, KINDS).project;
  return lead(lead(added.project, [diode, "cathode"], [id, positive]), [diode, "anode"], [id, negative]);
}

/** Size and insulation of a wire that is on the terminal already. */
function likeAt({ wires }: Project, [part, terminal]: WireEnd): Partial<Pick<Wire, "size" | "insulation" | "colour">> {
  const wire = wires.find(({ ends }) => ends.some((end) => end?.[0] === part && end[1] === terminal));
  if (wire === undefined) return {};
  const { size, insulation, colour } = wire;
  return {
    ...(size === undefined ? {} : { size }),
    ...(insulation === undefined ? {} : { insulation }),
    ...(colour === undefined ? {} : { colour }),
  };
}

/** The nearest place to the coil's symbol where a diode with its texts overlaps nothing and no wire runs. */
function freePlace(project: Project, part: Part, terminal: string): ViewPlacement | undefined {
  const kind = KINDS.get("diode");
  if (kind === undefined) return undefined;
  for (const sheet of project.sheets) {
    const views = placedViews(project, sheet.id);
    const home = views.find((view) => view.part.id === part.id && view.pins.some((pin) => pin.terminal === terminal));
    if (home === undefined) continue;
    const taken: Box[] = [
      titleBlockOf(sheet),
      ...views.map((view) => view.box),
      ...views.flatMap((view) => labelBox(labelOf(view)) ?? []),
      ...[...routedSheet(project, sheet.id).paths.values()].flat().flatMap(segments),
    ];
    const values = readValues(kind, {});
    const [view] = kind.views(values);
    if (view === undefined) return undefined;
    const model: Part = { id: "", designation: "R99", kind: "diode", parameters: {}, views: [] };
    const frame = inflate(frameOf(sheet), -GAP);
    for (const [dx, dy] of rings()) {
      const at: ViewPlacement = {
        view: view.id,
        sheet: sheet.id,
        x: Math.round((home.place.x + dx) / GRID) * GRID,
        y: Math.round((home.place.y + dy) / GRID) * GRID,
        turn: 0,
        mirrored: false,
      };
      const placed = placedView(model, { kind, values }, view, at);
      const label = labelBox(labelOf(placed));
      const own = label === undefined ? [placed.box] : [placed.box, label];
      if (own.every((box) => containsBox(frame, box) && !taken.some((other) => overlap(box, other, GRID)))) return at;
    }
  }
  return undefined;
}

/** Offsets from near to far: first above and below, then beside. */
function rings(): readonly (readonly [number, number])[] {
  const offsets: (readonly [number, number])[] = [];
  for (let x = -FARTHEST; x <= FARTHEST; x += STEP)
    for (let y = -FARTHEST; y <= FARTHEST; y += STEP) offsets.push([x, y]);
  return offsets.sort((a, b) => Math.hypot(a[0], a[1]) - Math.hypot(b[0], b[1]));
}

function segments(path: readonly (readonly [number, number])[]): readonly Box[] {
  return path.slice(1).map(([x, y], k): Box => {
    const [fromX, fromY] = path[k] ?? [x, y];
    return { x: Math.min(x, fromX), y: Math.min(y, fromY), width: Math.abs(x - fromX), height: Math.abs(y - fromY) };
  });
}
