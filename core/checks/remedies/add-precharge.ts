/** Adds a pre-charge path across a contactor: resistor and relay, ahead of the contactor by a timer. */
import type { Analysis } from "../../circuit/analysis.ts";
import type { Branch, NetworkPart, NodeIndex } from "../../network/network.ts";
import { connect } from "../../project/commands/connect.ts";
import { reconnect } from "../../project/commands/reconnect.ts";
import type { WireFields } from "../../project/commands/set-wire-field.ts";
import type { Wire, WireEnd } from "../../project/document.ts";
import { plainNumber } from "../../quantity/print.ts";
import { CLASS_B_DC } from "../../standards/voltage-class.ts";
import { choosePrecharge } from "../../studies/precharge-choice.ts";
import { supplyPairs } from "../../studies/words/supply-pairs.ts";
import type { Remedy } from "../define.ts";
import type { Closing } from "../words/capacitor-closings.ts";
import { closedFeed } from "../words/closed-feed.ts";
import type { Edit } from "./edit.ts";
import { remedy } from "./edit.ts";
import { atLeast } from "./exchange-device.ts";
import { addBeside, alike } from "./insert-part.ts";

/** Twice the second that the resistor is chosen for: within the half to two seconds of published designs. */
const DELAY = "2 s";
/** Together within the 178 mm that a thin tap may have (33 CFR 183.455(b)). */
const TAP = "0.08 m";
const LEAD = "0.15 m";

/** The wire that feeds the contactor's coil from whatever switches it. */
interface CoilFeed {
  readonly wire: Wire;
  readonly end: 0 | 1;
}

/**
 * Offered for one contactor that closes onto controllers of stated capacitance and nothing else, whose coil hangs on
 * one wire from a switch.
 */
export function addPrecharge(analysis: Analysis, group: readonly Closing[]): readonly Remedy[] {
  const { network } = analysis;
  const contacts = [...new Set(group.flatMap((closing) => closing.contacts))];
  const [contact, ...more] = contacts;
  const part = contact?.part;
  const sides = contact === undefined ? undefined : sidesOf(analysis, group, contact);
  const [coil, ...coils] = part?.kind.coils?.(part.values) ?? [];
  if (contact === undefined || part === undefined || sides === undefined || coil === undefined) return [];
  if (more.length + coils.length > 0 || !feedsControllersAlone(analysis, group, sides.load)) return [];
  const coilVoltage = part.part.parameters["coilVoltage"];
  const capacitors = new Map(group.map(({ capacitor, capacitance }) => [capacitor, capacitance]));
  const capacitance = [...capacitors.values()].reduce<number | undefined>(
    (sum, each) => (sum === undefined || each === undefined ? undefined : sum + each),
    0,
  );
  const highest = group.map(({ before }) => closedFeed(analysis, before).packsAt(sides.pack));
  const volts = Math.max(...highest.flat().map((pack) => pack.highest));
  const { answer } = choosePrecharge({ capacitance, volts });
  const feed = coilFeed(analysis, part, coil);
  const [line, load] = [network.terminalOfNode[sides.pack], network.terminalOfNode[sides.load]];
  if (answer === undefined || feed === undefined || coilVoltage == null || line === undefined || load === undefined)
    return [];
  const ohms = `${plainNumber(answer.resistor)} ohm`;
  const main = network.wiresAt(line)[0];
  const finish = volts > CLASS_B_DC ? { finish: "booted" } : {};
  return [
    remedy("add-precharge", `Pre-charge through ${ohms} across ${part.part.designation}, for ${DELAY}`, (edit) => {
      const relay = addBeside(
        edit,
        {
          kind: "relay",
          parameters: { coilVoltage, suppression: "diode", contactVoltage: atLeast(volts, "V"), ...finish },
        },
        line,
      );
      const pulseEnergy = atLeast(answer.pulseEnergy, "J");
      const resistor = addBeside(
        edit,
        { kind: "resistor", parameters: { resistance: ohms, pulseEnergy, ...finish } },
        load,
      );
      const power = { ...(main === undefined ? {} : alike(main)), size: feed.wire.size };
      join(edit, line, [relay, "common"], { ...power, length: TAP });
      join(edit, [relay, "no"], [resistor, "1"], { ...power, length: TAP });
      join(edit, [resistor, "2"], load, { ...power, length: LEAD });
      const own = { ...alike(feed.wire), length: LEAD };
      const at = (terminal: string): WireEnd => [part.part.id, terminal];
      const parameters = { supplyVoltage: coilVoltage, delay: DELAY, mode: "on-delay" };
      const timer = addBeside(edit, { kind: "timer-relay", parameters }, at(coil.plus));
      edit.run(reconnect, { wire: feed.wire.id, end: feed.end, to: [timer, "common"] });
      join(edit, [timer, "common"], [timer, "supply+"], own);
      join(edit, [timer, "supply-"], at(coil.minus), own);
      join(edit, [timer, "no"], at(coil.plus), own);
      // The relay lets go when the contactor takes over.
      join(edit, [timer, "nc"], [relay, "coil+"], own);
      join(edit, [relay, "coil-"], at(coil.minus), own);
    }),
  ];
}

function join(edit: Edit, from: WireEnd, to: WireEnd, fields: WireFields): void {
  edit.run(connect, { from, to, fields });
}

/** The node of the contact that stands on the pack before it closes, and the other one. */
function sidesOf(
  analysis: Analysis,
  [first]: readonly Closing[],
  { a, b }: Branch,
): { readonly pack: NodeIndex; readonly load: NodeIndex } | undefined {
  if (first === undefined) return undefined;
  const feed = closedFeed(analysis, first.before);
  const [onA, onB] = [a, b].map((node) => feed.packsAt(node).length > 0);
  return onA === onB ? undefined : onA === true ? { pack: a, load: b } : { pack: b, load: a };
}

/** A motor at the controller's plus is no load of its own; anything else would draw through the resistor. */
function feedsControllersAlone(analysis: Analysis, group: readonly Closing[], load: NodeIndex): boolean {
  const after = group
    .flatMap((closing) => analysis.state(closing.after) ?? [])
    .map((state) => closedFeed(analysis, state));
  const isOnBus = (node: NodeIndex): boolean => after.some((feed) => feed.island(node) === feed.island(load));
  const controllers = group.every(({ capacitor }) => capacitor.part?.kind.traits.controller === true);
  return (
    controllers &&
    supplyPairs(analysis.network).every(
      ({ part, plus, minus }) =>
        (!isOnBus(plus) && !isOnBus(minus)) || part.kind.traits.controller === true || part.kind.traits.motor === true,
    )
  );
}

/** Undefined where the coil is switched in its return, or fed by several wires. */
function coilFeed(
  analysis: Analysis,
  { part, nodes }: NetworkPart,
  coil: { readonly plus: string; readonly minus: string },
): CoilFeed | undefined {
  const [wire, ...others] = analysis.network.wiresAt([part.id, coil.plus]);
  const parked = analysis.state("parked");
  const [plus, minus] = [nodes.get(coil.plus), nodes.get(coil.minus)];
  if (wire === undefined || others.length > 0 || parked === undefined || plus === undefined || minus === undefined)
    return undefined;
  const feed = closedFeed(analysis, parked);
  if (feed.packsAt(plus).length > 0 || feed.packsAt(minus).length === 0) return undefined;
  return { wire, end: wire.ends[0]?.[0] === part.id && wire.ends[0][1] === coil.plus ? 0 : 1 };
}
