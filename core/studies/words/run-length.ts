/** The length of a run of wires against the distances of 33 CFR 183.455 and 183.460, with what the drawing leaves open. */
import type { Analysis } from "../../circuit/analysis.ts";
import type { Branch, Conductor } from "../../network/network.ts";
import type { Metre } from "../../quantity/kinds.ts";
import { parseQuantity } from "../../quantity/parse.ts";
import { positionLimit } from "../../standards/overcurrent.ts";
import type { Source } from "../../standards/source.ts";
import type { MissingField } from "../missing-field.ts";

export interface RunVerdict {
  readonly verdict: "within" | "beyond" | "open";
  /** Stated lengths alone. */
  readonly length: Metre;
  readonly limit: Metre;
  readonly source: Source;
  /** What would decide an open verdict. */
  readonly missing: readonly MissingField[];
}

export function wireLength({ wire }: Conductor): Metre | undefined {
  const reading = wire.length == null ? undefined : parseQuantity(wire.length, "length");
  return reading?.ok === true ? reading.value : undefined;
}

export type Cover = "sheath" | "enclosure" | "none" | "unstated";

/** In a sheath or conduit, or (both ends in one box) in an enclosure for all its way. */
export function coverOf(analysis: Analysis, { wire }: Conductor): Cover {
  const { project, partById } = analysis.network;
  const cable = project.cables.find(({ id }) => id === wire.cable);
  const conduits = [wire.conduit, cable?.conduit];
  if (wire.sheath === true || cable?.sheath === true) return "sheath";
  if (conduits.some((conduit) => conduit != null && conduit !== "")) return "sheath";
  const [a, b] = wire.ends.map((end) => (end === null ? undefined : partById.get(end[0])?.part.enclosure));
  if (a !== undefined && a === b) return "enclosure";
  return wire.sheath === false ? "none" : "unstated";
}

/** @param straight from a battery's own stud, through nothing but wire */
export function runVerdict(analysis: Analysis, run: readonly Branch[], straight: boolean): RunVerdict {
  const conductors = run.flatMap(({ conductor }) => conductor ?? []);
  const covers = conductors.map((conductor) => coverOf(analysis, conductor));
  const unstated = conductors.filter((conductor) => wireLength(conductor) === undefined);
  const length = conductors.reduce((sum, conductor) => sum + (wireLength(conductor) ?? 0), 0);
  const at = (best: boolean): { readonly length: Metre; readonly source: Source } => {
    const covered = covers.every((cover) => (cover === "unstated" ? best : cover !== "none"));
    const sheath = covers.every((cover) => (cover === "unstated" ? best : cover === "sheath"));
    return positionLimit(covered, straight && sheath);
  };
  const [least, most] = [at(false), at(true)];
  const missing: MissingField[] = [
    ...unstated.map(({ wire }) => ({ wire: wire.id, field: "length" })),
    ...(length > least.length || unstated.length > 0
      ? conductors.flatMap(({ wire }, index): MissingField[] =>
          covers[index] === "unstated" ? [{ wire: wire.id, field: "sheath" }] : [],
        )
      : []),
  ];
  const slack = 1e-9;
  if (length > most.length + slack)
    return { verdict: "beyond", length, limit: most.length, source: most.source, missing };
  const within = unstated.length === 0 && length <= least.length + slack;
  return { verdict: within ? "within" : "open", length, limit: least.length, source: least.source, missing };
}
