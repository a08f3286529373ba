/**
 * Contacts and what moves them, after IEC 60617 on the 2.5 mm module. A contact lies along the x axis, 15 mm from pin
 * to pin, drawn unactuated; its blade leans up, away from the gap, and its operator stands above it on a dashed link.
 */
import type { DisplayList } from "../geometry/display.ts";
import type { Millimetre } from "../quantity/kinds.ts";
import { arc, blade, circle, lead, link, rectangle, stroke } from "./symbol.ts";

/** Where the mechanical link takes hold of a contact that begins at (x, y): the middle of its blade. */
const BLADE_X = 7.4;
const BLADE_Y = -1.5;

const ends = (x: Millimetre, y: Millimetre) =>
  [
    [x, y],
    [x + 15, y],
  ] as const;

/** Make contact from (x, y) to (x + 15, y): fixed lead, gap, oblique blade hinged on the right lead. */
export const makeContact = (x: Millimetre, y: Millimetre): DisplayList => [
  lead(x, y, x + 5, y),
  blade([x + 10, y], [x + 4.8, y - 3], [x + 4.8, y - 3], [{ between: ends(x, y), to: [x + 5, y] }]),
  lead(x + 10, y, x + 15, y),
];

/** Break contact: the blade touches a small stub that stands on the fixed lead. */
export const breakContact = (x: Millimetre, y: Millimetre): DisplayList => [
  stroke([
    [x, y],
    [x + 5, y],
    [x + 5, y - 2.5],
  ]),
  blade([x + 10, y], [x + 4, y - 3], [x + 5.2, y - 4.8], [{ between: ends(x, y), to: [x + 4, y - 3] }]),
  lead(x + 10, y, x + 15, y),
];

/** Changeover contact: common at (x, y), break side at (x + 15, y - 2.5), make side at (x + 15, y + 2.5). */
export const changeoverContact = (x: Millimetre, y: Millimetre): DisplayList => [
  lead(x, y, x + 5, y),
  blade(
    [x + 5, y],
    [x + 11.2, y - 3.1],
    [x + 11.2, y],
    [
      {
        between: [
          [x, y],
          [x + 15, y - 2.5],
        ],
        to: [x + 11.2, y - 3.1],
      },
      {
        between: [
          [x, y],
          [x + 15, y + 2.5],
        ],
        to: [x + 11.2, y + 3.1],
      },
    ],
  ),
  stroke([
    [x + 10, y - 2.5],
    [x + 15, y - 2.5],
  ]),
  stroke([
    [x + 10, y + 2.5],
    [x + 15, y + 2.5],
  ]),
];

/** The small half-circle on the fixed side that makes a contact a contactor's main contact. */
export const mainContactMark = (x: Millimetre, y: Millimetre): DisplayList => [arc(x + 4.1, y, 0.9, 180, 360)];

/** The short bar across the fixed end that makes a contact a disconnector; a small circle if it may break load. */
export const disconnectorMark = (x: Millimetre, y: Millimetre, breaksLoad: boolean): DisplayList => [
  lead(x + 5, y - 1.25, x + 5, y + 1.25),
  ...(breaksLoad ? [circle(x + 4.25, y, 0.75, "paper")] : []),
];

/** Several contacts one below the other, `pitch` apart, blades linked. */
export function ganged(
  contact: (x: Millimetre, y: Millimetre) => DisplayList,
  count: number,
  pitch: Millimetre,
  bladeX = BLADE_X,
  bladeY = BLADE_Y,
): DisplayList {
  const list = Array.from({ length: count }, (_, index) => contact(0, index * pitch)).flat();
  return count > 1 ? [...list, link(bladeX, bladeY, bladeX, bladeY + (count - 1) * pitch)] : list;
}

/** Height of an operator's bar above the axis of its contact. */
const OPERATOR_Y = -7.5;

const linkUp = (x: Millimetre, bladeY: Millimetre): DisplayList => [link(x, bladeY, x, OPERATOR_Y)];

/** Hand operation, stays where it is put: dashed link to a short T bar. */
export const handOperator = (x = BLADE_X, bladeY = BLADE_Y): DisplayList => [
  ...linkUp(x, bladeY),
  lead(x - 2, OPERATOR_Y, x + 2, OPERATOR_Y),
];

/** Push-button: T bar whose ends are turned down into a flange. */
export const pushOperator = (x = BLADE_X, bladeY = BLADE_Y): DisplayList => [
  ...linkUp(x, bladeY),
  stroke([
    [x - 2, OPERATOR_Y + 1.25],
    [x - 2, OPERATOR_Y],
    [x + 2, OPERATOR_Y],
    [x + 2, OPERATOR_Y + 1.25],
  ]),
];

/** Turned by hand: T bar with one end turned down, the other up. */
export const turnOperator = (x = BLADE_X, bladeY = BLADE_Y): DisplayList => [
  ...linkUp(x, bladeY),
  stroke([
    [x - 2, OPERATOR_Y + 1.25],
    [x - 2, OPERATOR_Y],
    [x + 2, OPERATOR_Y],
    [x + 2, OPERATOR_Y - 1.25],
  ]),
];

/** Emergency stop: a mushroom head. */
export const mushroomOperator = (x = BLADE_X, bladeY = BLADE_Y): DisplayList => [
  ...linkUp(x, bladeY),
  arc(x, OPERATOR_Y, 2.5, 180, 360),
  lead(x - 2.5, OPERATOR_Y, x + 2.5, OPERATOR_Y),
];

/** Key: bow, shank and two bits; `top` is the height of its lower edge. */
export const keyOperator = (x = BLADE_X, bladeY = BLADE_Y, top = OPERATOR_Y): DisplayList => [
  link(x, bladeY, x, top - 1.25),
  circle(x - 1.75, top - 1.25, 1.25),
  stroke([
    [x - 0.5, top - 1.25],
    [x + 3, top - 1.25],
    [x + 3, top],
  ]),
  lead(x + 1.75, top - 1.25, x + 1.75, top - 0.25),
];

/** Moved by a machine part: a roller. */
export const rollerOperator = (x = BLADE_X, bladeY = BLADE_Y): DisplayList => [
  link(x, bladeY, x, OPERATOR_Y + 0.5),
  circle(x, OPERATOR_Y - 0.5, 1),
  lead(x - 2, OPERATOR_Y + 0.5, x + 2, OPERATOR_Y + 0.5),
];

/** Moved by shock: a mass held between two stops. */
export const massOperator = (x = BLADE_X, bladeY = BLADE_Y): DisplayList => [
  ...linkUp(x, bladeY),
  rectangle(x - 3, OPERATOR_Y - 3, 6, 3),
  circle(x, OPERATOR_Y - 1.5, 1, "ink"),
];

/** Moved by heat: a bent strip with the letter theta is written beside it by the part. */
export const heatOperator = (x = BLADE_X, bladeY = BLADE_Y): DisplayList => [
  ...linkUp(x, bladeY),
  stroke([
    [x - 2.5, OPERATOR_Y],
    [x - 1, OPERATOR_Y],
    [x - 1, OPERATOR_Y - 1.5],
    [x + 1, OPERATOR_Y - 1.5],
    [x + 1, OPERATOR_Y],
    [x + 2.5, OPERATOR_Y],
  ]),
];

/**
 * The delay mark of a timed contact: on two links an arc that brakes the blade like a parachute, while it closes, or
 * (`whenReleased`) while it goes back.
 */
export const delayMark = (x: Millimetre, bladeY: Millimetre, whenReleased: boolean): DisplayList => [
  lead(x - 0.4, bladeY, x - 0.4, OPERATOR_Y + 1.25),
  lead(x + 0.4, bladeY, x + 0.4, OPERATOR_Y + 1.25),
  whenReleased ? arc(x, OPERATOR_Y - 0.75, 2, 20, 160) : arc(x, OPERATOR_Y + 2.5, 2, 200, 340),
];
