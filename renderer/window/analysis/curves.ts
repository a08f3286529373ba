/** Which figures of a transition are worth a curve: capacitors, coils, the pack's current, what contacts and resistors carry. */
import type { Analysis } from "../../../core/circuit/analysis.ts";
import type { Transition } from "../../../core/circuit/transition/transition.ts";
import { toldSamples } from "../../../core/documents/run-json.ts";
import type { Branch } from "../../../core/network/network.ts";
import type { Curve } from "./protocol.ts";

/** Curves in the order in which they are offered, over the times of the transition's document. */
export function curvesOf(analysis: Analysis, transition: Transition): readonly Curve[] {
  const { network, packs } = analysis;
  const samples = toldSamples(transition.times);
  const told = (values: (sample: number) => number): Curve["values"] =>
    samples.map((sample) => {
      const value = values(sample);
      return Number.isFinite(value) ? value + 0 : null;
    });
  const volts = ({ a, b }: Branch): Curve["values"] => {
    const [plus, minus] = [transition.volts(a), transition.volts(b)];
    return told((sample) => (plus[sample] ?? Number.NaN) - (minus[sample] ?? Number.NaN));
  };
  const amps = ({ index }: Branch): Curve["values"] => {
    const currents = transition.currents(index);
    return told((sample) => currents[sample] ?? Number.NaN);
  };
  const name = ({ part }: Branch): string => part?.part.designation ?? "";
  const ofRole = (role: Branch["role"]): readonly Branch[] => network.branches.filter((branch) => branch.role === role);
  const moved = new Set([...transition.closings, ...transition.openings].map(({ branch }) => branch));
  const closed = network.branches.filter(({ index }) => moved.has(index));
  const firstBlocks = packs.flatMap(({ duty, blocks }) => (duty === "traction" ? blocks.slice(0, 1) : []));
  const sources = firstBlocks.flatMap((block) => ofRole("source").find(({ part }) => part === block) ?? []);
  return [
    ...ofRole("capacitor").map((branch): Curve => {
      const own = branch.part?.kind.traits.controller === true ? "bus" : branch.name.replaceAll("-", " ");
      return { label: `${name(branch)} ${own}`, unit: "V", values: volts(branch), first: own === "bus" };
    }),
    ...sources.map(
      (branch): Curve => ({ label: `${name(branch)} current`, unit: "A", values: amps(branch), first: true }),
    ),
    ...ofRole("coil").map(
      (branch): Curve => ({ label: `${name(branch)} coil`, unit: "V", values: volts(branch), first: false }),
    ),
    ...closed.map(
      (branch): Curve => ({ label: `${name(branch)} ${branch.name}`, unit: "A", values: amps(branch), first: false }),
    ),
    ...ofRole("resistor").map(
      (branch): Curve => ({ label: `${name(branch)} current`, unit: "A", values: amps(branch), first: false }),
    ),
  ];
}
