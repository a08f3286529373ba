/** The remedy of a wire that is too thin: the next size up, in its own system, that holds. */
import type { Analysis } from "../../circuit/analysis.ts";
import type { Conductor } from "../../network/network.ts";
import { KINDS } from "../../parts/catalogue.ts";
import { execute } from "../../project/commands/define.ts";
import { setWireField } from "../../project/commands/set-wire-field.ts";
import type { Wire } from "../../project/document.ts";
import { parseSize } from "../../quantity/parse.ts";
import { nextLargerSize } from "../../quantity/size.ts";
import type { ConductorSize } from "../../quantity/size.ts";
import type { Ratio } from "../../quantity/kinds.ts";
import { ampacityAtSize } from "../../studies/words/wire-ampacity.ts";
import { wireCurrents } from "../../studies/words/wire-currents.ts";
import type { Remedy } from "../define.ts";

export function sizeOf(wire: Wire): ConductorSize | undefined {
  const reading = wire.size == null ? undefined : parseSize(wire.size);
  return reading?.ok === true ? reading.size : undefined;
}

/** The smallest size above a wire's own that holds; undefined where no size sold does, or its own is not stated. */
export function nextThatHolds(wire: Wire, holds: (size: ConductorSize) => boolean): ConductorSize | undefined {
  const own = sizeOf(wire);
  for (let size = own && nextLargerSize(own); size !== undefined; size = nextLargerSize(size)) {
    if (holds(size)) return size;
  }
  return undefined;
}

/** Thicker wire lets a little more current through. */
const ROOM: Ratio = 0.02;

/** May a wire of this size carry for good, where it lies, what this one has to carry? True where that cannot be told. */
export function carriesLoad(analysis: Analysis, conductor: Conductor, size: ConductorSize): boolean {
  const thicker = ampacityAtSize(analysis, conductor, size);
  return !thicker.known || thicker.low >= (wireCurrents(analysis).get(conductor)?.most ?? 0) * (1 + ROOM);
}

/** One edit that gives each wire its size. */
export function setSizes(sizes: ReadonlyMap<string, ConductorSize>, label: string): Remedy {
  const changes = [...sizes].map(([wire, { text }]) => ({ wire, fields: { size: text } }));
  return { id: "thicker-wire", label, apply: (project) => execute(project, setWireField, { changes }, KINDS).project };
}

/** Offered only where some size holds. */
export function thickerWire(wire: Wire, holds: (size: ConductorSize) => boolean): readonly Remedy[] {
  const size = nextThatHolds(wire, holds);
  return size === undefined ? [] : [setSizes(new Map([[wire.id, size]]), `Use ${size.text} for wire ${wire.number}`)];
}
