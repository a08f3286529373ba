/** Nodal analysis in 64-digit decimals by plain Gaussian elimination: the measure of the solver's digits. */
import { all, create, type BigNumber } from "mathjs";

const math = create(all!, { number: "BigNumber", precision: 64 });
const decimal = (value: number): BigNumber => math.bignumber(value);
const ZERO = decimal(0);

/** A branch in decimals: i(a to b) = (v - emf) / ohms + amps. `ohms` Infinity = none. */
export interface LinearBranch {
  readonly a: number;
  readonly b: number;
  readonly ohms: number;
  readonly emf: number;
  readonly amps: number;
}

export interface DecimalSolution {
  /** By node; undefined where no path leads to chassis. */
  readonly volts: readonly (BigNumber | undefined)[];
  /** By branch, a to b; in an island too. */
  readonly currents: readonly BigNumber[];
}

/** Solves exactly (to 60 digits). In an island without chassis its last node is the reference. */
export function decimalElimination(nodeCount: number, branches: readonly LinearBranch[]): DecimalSolution {
  const island = islands(nodeCount, branches);
  const rows = Array.from({ length: nodeCount }, () => new Map<number, BigNumber>());
  const right: BigNumber[] = Array.from({ length: nodeCount }, () => ZERO);
  const put = (i: number, j: number, value: BigNumber): void =>
    void rows[i]!.set(j, (rows[i]!.get(j) ?? ZERO).add(value));
  for (const { a, b, ohms, emf, amps } of branches) {
    if (a === b) continue;
    let injected = decimal(-amps);
    if (ohms < Infinity) {
      const g = decimal(1).div(decimal(ohms));
      put(a, a, g);
      put(b, b, g);
      put(a, b, g.neg());
      put(b, a, g.neg());
      injected = injected.add(g.mul(decimal(emf)));
    }
    right[a] = right[a]!.add(injected);
    right[b] = right[b]!.sub(injected);
  }
  const reference = new Set(island);
  const unknown = new Set<number>();
  for (let n = 0; n < nodeCount; n++) if (!reference.has(n)) unknown.add(n);

  // Fewest entries first, so that few are made; the values do not depend on it.
  const order: number[] = [];
  while (unknown.size > 0) {
    let best = -1;
    for (const n of unknown) if (best < 0 || rows[n]!.size < rows[best]!.size) best = n;
    unknown.delete(best);
    order.push(best);
    const row = rows[best]!;
    const pivot = row.get(best)!;
    for (const i of row.keys()) {
      if (!unknown.has(i)) continue;
      const factor = rows[i]!.get(best)!.div(pivot);
      rows[i]!.delete(best);
      for (const [j, value] of row) if (j !== best) put(i, j, factor.mul(value).neg());
      right[i] = right[i]!.sub(factor.mul(right[best]!));
    }
  }
  const values: BigNumber[] = Array.from({ length: nodeCount }, () => ZERO);
  for (const n of order.reverse()) {
    let sum = right[n]!;
    for (const [j, value] of rows[n]!) if (j !== n) sum = sum.sub(value.mul(values[j]!));
    values[n] = sum.div(rows[n]!.get(n)!);
  }
  const volts = values.map((value, n) => (island[n] === island[0] ? value : undefined));
  const currents = branches.map(({ a, b, ohms, emf, amps }) =>
    ohms < Infinity
      ? values[a]!.sub(values[b]!).sub(decimal(emf)).div(decimal(ohms)).add(decimal(amps))
      : decimal(amps),
  );
  return { volts, currents };
}

/** For each node the lowest node that conductance joins it with. */
function islands(nodeCount: number, branches: readonly LinearBranch[]): number[] {
  const root = Array.from({ length: nodeCount }, (_, n) => n);
  const find = (n: number): number => {
    while (root[n] !== n) n = root[n]!;
    return n;
  };
  for (const { a, b, ohms } of branches) {
    if (ohms === Infinity) continue;
    const [low, high] = [find(a), find(b)].sort((p, q) => p - q) as [number, number];
    root[high] = low;
  }
  return root.map((_, n) => find(n));
}
