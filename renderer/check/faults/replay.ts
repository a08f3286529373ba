/** Shows the drawing with a single fault in it, and what the fault concerns. */
import type { FaultPlace } from "../../../core/studies/single-faults-json.ts";
import type { Surroundings } from "../../window/editor-context.ts";

export async function replayFault(
  { store, ask }: Pick<Surroundings, "store" | "ask">,
  fault: { readonly key: string; readonly where: readonly FaultPlace[] },
  state: string,
): Promise<void> {
  const parts = fault.where.flatMap((place) => ("part" in place ? [place.id] : []));
  const wires = fault.where.flatMap((place) => ("wire" in place ? [place.id] : []));
  store.select({ parts: [...new Set(parts)], wires });
  const view = await ask({ about: "fault", key: fault.key, state });
  store.set({ beside: view ?? null, inTime: null });
}
