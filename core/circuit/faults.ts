/**
 * Single faults: what can go wrong by itself on a vehicle that was wired as drawn, each as a change to the circuit.
 * `singleFaults` lists them; core/studies tells what each one leads to.
 */
import type { BranchIndex, NetworkPart, NodeIndex } from "../network/network.ts";
import type { Change } from "./analysis.ts";

/**
 * wire-open            a conductor or its joint parts            contact-welded       a contact never opens again
 * contact-stuck-open   a contact never closes again              fuse-blown           a fuse or breaker is open
 * terminals-bridged    two neighbouring terminals touch          conductor-to-chassis a conductor rubs through to chassis
 * connector-unplugged  a plug comes off                          barrier-broken       the barrier of a converter, charger or port fails
 * output-shorted       the output stage of a controller conducts for good
 */
export type FaultKind =
  | "wire-open"
  | "contact-welded"
  | "contact-stuck-open"
  | "fuse-blown"
  | "terminals-bridged"
  | "conductor-to-chassis"
  | "connector-unplugged"
  | "barrier-broken"
  | "output-shorted";

export interface SingleFault {
  readonly kind: FaultKind;
  /** "wire-open w12", "contact-welded p3 contact": stable, unique in a drawing. */
  readonly key: string;
  /** The wire or part, and the terminals concerned. */
  readonly wire: string | undefined;
  readonly part: NetworkPart | undefined;
  readonly terminals: readonly { readonly part: string; readonly terminal: string }[];
  readonly branches: readonly BranchIndex[];
  readonly nodes: readonly NodeIndex[];
  readonly change: Change;
}
