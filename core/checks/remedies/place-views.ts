/** Places what stands on no sheet: beside what it is wired to, else as the layout places new parts. */
import type { Network, NetworkPart } from "../../network/network.ts";
import { pinPlaces, terminalKey } from "../../layout/placed-view.ts";
import type { WireEnd } from "../../project/document.ts";
import type { Remedy } from "../define.ts";
import { remedy } from "./edit.ts";
import { placeNear } from "./free-place.ts";

const remembered = new WeakMap<Network, ReturnType<typeof pinPlaces>>();

/** Where the terminals stand that are on a sheet: asked for each part that is not. */
function pinsOf(network: Network): ReturnType<typeof pinPlaces> {
  let pins = remembered.get(network);
  if (pins === undefined) remembered.set(network, (pins = pinPlaces(network.project)));
  return pins;
}

/** Not offered where nothing that it is wired to, nor another view of it, is on a sheet: then the whole drawing waits to be laid out. */
export function placeViews(
  network: Network,
  { part, terminals }: NetworkPart,
  views: readonly string[],
): readonly Remedy[] {
  const own = terminals.map(({ id }): WireEnd => [part.id, id]);
  const far = own.flatMap((end) => network.wiresAt(end).flatMap(({ ends }) => ends.filter((at) => at !== null)));
  const pins = pinsOf(network);
  const near = [...far, ...own].find((end) => pins.has(terminalKey(end)));
  if (near === undefined) return [];
  return [
    remedy("place-views", `Place ${part.designation} beside ${network.label(near)}`, (edit) =>
      placeNear(edit, part.id, near, views),
    ),
  ];
}
