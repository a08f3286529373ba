/** A network in time as a netlist for a general circuit simulator (ngspice). */
import { curveLaw } from "../../harness/curve-law.ts";
import type { TimedNetwork, Watch } from "./networks.ts";

/** Steps that the simulator takes at least. */
const STEPS = 5000;
/** Part of a step in which a contact's conductance rises or falls there. */
const RAMP = 1e-3;

/** Writes the network; its results go to `file`, one pair of columns (time, value) a watch. */
export function timedNetlist(network: TimedNetwork, file: string): string {
  const { duration, watch } = network;
  const lines = [`* ${network.title}`];
  network.elements.forEach((_, e) => lines.push(...card(network, e)));
  lines.push(
    ".options reltol=1e-6 abstol=1e-10 vntol=1e-7 gmin=1e-14 itl1=2000 itl4=200 method=gear",
    ".control",
    `tran ${duration / STEPS} ${duration} 0 ${duration / STEPS} uic`,
    ...watch.map((each, w) => `let w${w} = ${expression(network, each)}`),
    "set numdgt=12",
    `wrdata ${file} ${watch.map((_, w) => `w${w}`).join(" ")}`,
    "quit",
    ".endc",
    ".end",
  );
  return lines.join("\n") + "\n";
}

function expression({ elements }: TimedNetwork, watch: Watch): string {
  if ("a" in watch) {
    if (watch.b === 0) return `v(${watch.a})`;
    return watch.a === 0 ? `-v(${watch.b})` : `v(${watch.a})-v(${watch.b})`;
  }
  return elements[watch.branch]?.type === "coil" ? `i(L${watch.branch})` : `-i(V${watch.branch})`;
}

function card(network: TimedNetwork, e: number): string[] {
  const element = network.elements[e]!;
  const a = network.a[e]!;
  const b = network.b[e]!;
  const v = b === 0 ? `v(${a})` : a === 0 ? `(-v(${b}))` : `(v(${a})-v(${b}))`;
  const curve = (amps: string): string[] => [`B${e} ${a} ${b} I=${amps}`];
  switch (element.type) {
    case "resistance":
      return [`R${e} ${a} ${b} ${element.resistance}`];
    case "source":
      return [`V${e} x${e} ${b} ${element.emf}`, `R${e} x${e} ${a} ${element.resistance}`];
    case "capacitor":
      return [`C${e} ${a} ${b} ${element.capacitance} IC=${network.volts[e] ?? 0}`];
    case "coil":
      return [
        `R${e} ${a} x${e} ${element.resistance}`,
        `L${e} x${e} ${b} ${element.inductance} IC=${network.amps[e] ?? 0}`,
      ];
    case "contact": {
      const width = (RAMP * network.duration) / STEPS;
      let now = element.closed ? 1 : 0;
      const points = [`0 ${now}`];
      for (const { time, branch, closed } of network.moves) {
        if (branch !== e) continue;
        points.push(`${time} ${now}`, `${time + width} ${closed ? 1 : 0}`);
        now = closed ? 1 : 0;
      }
      return [`VC${e} c${e} 0 PWL(${points.join(" ")})`, ...curve(`${v}*(v(c${e})*${1 / element.resistance}+1e-12)`)];
    }
    case "diode":
      if (network.exponential !== true) return curve(`max(0,(${v}-${element.drop})/${element.resistance})`);
      return [`D${e} ${a} ${b} DX${e}`, `.model DX${e} D(IS=1e-12 N=1 RS=${element.resistance})`];
    case "clamp":
      if (element.oneWay) break;
      return curve(
        `max(0,(${v}-${element.clamp})/${element.resistance})+min(0,(${v}+${element.clamp})/${element.resistance})`,
      );
    case "limited-source": {
      const out = `min(${element.limit},(${element.emf}-${v})/${element.resistance})`;
      return curve(element.oneWay ? `-max(0,${out})` : `-(${out})`);
    }
    case "current-port":
      if (element.current >= 0) return curve(`max(0,min(${element.current},${v}/${element.resistance}))`);
      return curve(`max(${element.current},min(0,(${v}-${element.ceiling ?? 0})/${element.resistance}))`);
    case "power-port":
      // Below its minimum it draws nothing; the ramp over a hundredth of a volt is for the simulator's steps.
      return curve(`${element.power ?? 0}/max(${v},${element.minimum})*max(0,min(1,(${v}-${element.minimum})*100))`);
  }
  throw new RangeError(`"${element.name}" is not written in time; ${String(curveLaw(element)?.length)} pieces`);
}
