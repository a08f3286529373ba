/** Tightening torques of battery and busbar terminals, for the notes on a drawing: a maker's own figure goes before. */
import type { NewtonMetre } from "../quantity/kinds.ts";
import type { Source } from "./source.ts";

export interface Torque {
  readonly terminal: string;
  readonly range: readonly [NewtonMetre, NewtonMetre];
  readonly source: Source;
}

const GUIDES: Source = { text: "Published user guides of deep-cycle batteries", known: "seen" };
const BUSBAR: Source = { text: "Published drive design guide, copper bus-bars with plain steel bolts", known: "seen" };

export const TORQUES: readonly Torque[] = [
  { terminal: "deep-cycle lead terminal, 5/16 in stud", range: [11, 12], source: GUIDES },
  { terminal: "automotive post clamp", range: [6, 8], source: GUIDES },
  { terminal: "heavy stud, 3/8 in", range: [14, 20], source: GUIDES },
  { terminal: "sealed battery, M6 insert", range: [3, 7.9], source: GUIDES },
  { terminal: "sealed battery, M8 insert", range: [8, 11], source: GUIDES },
  { terminal: "sealed battery, M10 insert", range: [13, 16], source: GUIDES },
  { terminal: "copper bus-bar, M6", range: [6, 9], source: BUSBAR },
  { terminal: "copper bus-bar, M8", range: [17, 20], source: BUSBAR },
  { terminal: "copper bus-bar, M10", range: [35, 40], source: BUSBAR },
  { terminal: "copper bus-bar, M12", range: [65, 70], source: BUSBAR },
];
