/**
 * Which terminals of a part lie so close together that a strand, a drop of water or a tool joins them: consecutive
 * pins of one row of a plug or strip, and terminals at most 35 mm apart on the face, unless both wear a boot.
 */
import type { NetworkPart } from "../network/network.ts";
import { isBooted } from "../project/cover.ts";
import type { Project } from "../project/document.ts";
import type { Millimetre } from "../quantity/kinds.ts";
import { faceOf, faceTerminals } from "./face-terminals.ts";

/** A washer, a lug turned round or the blade of a driver spans this (common practice, no source). */
export const NEIGHBOURING: Millimetre = 35;

const known = new WeakMap<NetworkPart, readonly (readonly [string, string])[]>();

/** Each pair once, in the order of the part's terminals; terminals of one row are neighbours only of the next one. */
export function neighbouringTerminals(project: Project, part: NetworkPart): readonly (readonly [string, string])[] {
  let pairs = known.get(part);
  if (pairs === undefined) known.set(part, (pairs = find(project, part)));
  return pairs;
}

function find(project: Project, part: NetworkPart): readonly (readonly [string, string])[] {
  const rows = rowsOf(part);
  const inRow = new Set(rows.flat());
  const pairs = rows.flatMap((row) =>
    row.flatMap((id, place): (readonly [string, string])[] => {
      const next = row[place + 1];
      return next === undefined ? [] : [[id, next]];
    }),
  );
  const spots = faceTerminals(part);
  spots.forEach((one, place) => {
    for (const other of spots.slice(place + 1)) {
      if (inRow.has(one.id) && inRow.has(other.id)) continue;
      if (Math.abs(one.x - other.x) > NEIGHBOURING) continue;
      if (Math.hypot(one.x - other.x, one.y - other.y) > NEIGHBOURING) continue;
      if (isBooted(project, part.part, one.id) && isBooted(project, part.part, other.id)) continue;
      pairs.push([one.id, other.id]);
    }
  });
  return pairs;
}

/** Rows of plugs and strips: as the kind names them, else the pins of each plug in their order. */
function rowsOf(part: NetworkPart): readonly (readonly string[])[] {
  const rows = new Map<string, string[]>();
  for (const { id, row } of part.terminals) {
    if (row === undefined) continue;
    const list = rows.get(row);
    if (list === undefined) rows.set(row, [id]);
    else list.push(id);
  }
  const named = new Set([...rows.values()].flat());
  const plugs = faceOf(part).plugs.map(({ pins }) => pins.filter((id) => !named.has(id)));
  return [...rows.values(), ...plugs];
}
