/**
 * What drains capacitors once a transition is over, if nobody draws anything: the pedal up, no drive running. A drive at
 * full load empties a bus in milliseconds that would keep its charge for hours had the pedal been up.
 */
import type { BranchIndex } from "../../network/network.ts";
import type { PartState } from "../../parts/define.ts";
import type { Element } from "../../parts/element.ts";
import type { Ampere, Volt } from "../../quantity/kinds.ts";
import type { Course } from "./course.ts";

export class Draining {
  readonly #course: Course;
  #elements: readonly Element[] | undefined;

  constructor(course: Course) {
    this.#course = course;
  }

  /**
   * Current that leaves these capacitors together, held at one voltage, with contacts and electronics as they stand at the
   * end and nobody drawing anything; negative where something still feeds them.
   */
  current(capacitors: readonly BranchIndex[], volts: Volt): Ampere {
    const held = new Map(capacitors.map((branch) => [branch, volts]));
    const { currents } = this.#course.bench.solver.solve((this.#elements ??= this.#atRest()), undefined, held);
    return -capacitors.reduce((sum, branch) => sum + (currents[branch] ?? 0), 0);
  }

  #atRest(): readonly Element[] {
    const { bench, condition, partStates } = this.#course;
    const idle = { ...condition, throttle: "idle", drive: "none", pack: "rest" } as const;
    return bench.assemble(idle, partStates.map(undriven)).elements;
  }
}

/** A controller goes on driving in the state it was left in, until it is asked again. */
const undriven = (state: PartState): PartState => ("drive" in state ? { ...state, drive: "off" } : state);
