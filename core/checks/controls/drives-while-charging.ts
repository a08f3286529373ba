/** A vehicle that can drive off with the charging cable in. */
import type { Analysis } from "../../circuit/analysis.ts";
import type { NetworkPart, NodeIndex } from "../../network/network.ts";
import { KINDS } from "../../parts/catalogue.ts";
import { connect } from "../../project/commands/connect.ts";
import { execute } from "../../project/commands/define.ts";
import { reconnect } from "../../project/commands/reconnect.ts";
import type { WireEnd } from "../../project/document.ts";
import { compareNatural } from "../../project/designation.ts";
import { defineCheck } from "../define.ts";
import type { MissingField, Remedy } from "../define.ts";
import { unstatedActuators } from "../words/chain-contacts.ts";
import { chargerOutputs } from "../words/charger-outputs.ts";
import { drives, isDrawnIn, isEnabled, movedBy, running, unstatedEnable } from "../words/drive-enable.ts";
import { partPlace } from "../words/places.ts";

export const drivesWhileCharging = defineCheck({
  id: "drives-while-charging",
  group: "controls",
  title: "Drives off with the cable plugged in",
  about:
    "Plugs every charger and the charge flap in while driving at full throttle and looks whether the drive stays enabled. An inhibit contact that follows charging alone is taken as closed again, as it is once the battery is full. It cannot see a cable whose far end alone is in.",
  severities: ["WARNING"],
  source: {
    text: "FMVSS 305: with the connector plugged in the vehicle must not move by its own propulsion",
    known: "seen",
  },
  reads: "states",
  withstands: { splice: true, busbar: true, connector: true, contact: true, rename: true },
  without: {},
  messages: {
    drives: {
      title: "With {chargers} plugged in {parts} can still be driven.",
      why: "Sooner or later somebody drives off with the cord in: it tears the inlet out, leaves live mains behind, or drags whoever holds it.",
      mend: "Lead the interlock or the feed of the main contactor's coil through the inhibit contact of {chargers}, a relay on its mains, or a switch at the charge flap.",
    },
    charging: {
      title:
        "{chargers} holds {parts} off only while it charges: once the battery is full, the vehicle drives with the cord in.",
      why: "The cord hangs there until somebody pulls it, long after charging has ended, and by then nothing holds the drive off.",
      mend: "Use a contact that follows the plug instead: a relay on the mains of {chargers}, or a switch at the charge flap.",
    },
  },
  reasons: {
    never: "Whether {parts} is held off while {chargers} is plugged in cannot be told, as it is enabled in no state.",
    follows: "Whether {parts} is held off until {chargers} is unplugged depends on what is not stated.",
  },
  run(analysis, report) {
    const { driving, enabled, never } = running(analysis);
    const chargers = chargersOf(analysis);
    if (driving === undefined || chargers.length === 0 || drives(analysis).length === 0) {
      report.doesNotApply();
      return;
    }
    const facts = (parts: readonly { readonly part: NetworkPart }[]) => ({
      chargers: { places: chargers.map(partPlace) },
      parts: { places: parts.map(({ part }) => partPlace(part)) },
    });
    for (const drive of never) {
      const missing = unstatedEnable(analysis);
      report.notChecked({ where: [drive.place], reason: "never", facts: facts([drive]), missing });
    }
    const set = movedBy(analysis, driving.condition, { mains: "plugged" });
    const lasting = chargers.filter(({ values }) => values.choice("inhibitFollows") !== "plugged");
    const shorts = lasting.flatMap(inhibitOf);
    const plugged = analysis.solveChanged(driving, { set });
    const full = shorts.length === 0 ? plugged : analysis.solveChanged(driving, { set, shorts });
    const loose = enabled.filter((drive) => isEnabled(analysis, full, drive));
    for (const drive of enabled) if (!loose.includes(drive)) report.passes(drive.place);
    if (loose.length === 0) return;
    const charging = loose.every((drive) => !isEnabled(analysis, plugged, drive));
    const unstated = [...(charging ? unstatedFollows(lasting) : []), ...unstatedActuators(analysis)];
    if (unstated.length > 0) {
      for (const drive of loose)
        report.notChecked({ where: [drive.place], reason: "follows", facts: facts([drive]), missing: unstated });
      return;
    }
    report.fails({
      message: charging ? "charging" : "drives",
      facts: facts(loose),
      severity: "WARNING",
      where: [...chargers.map(partPlace), ...loose.map(({ place }) => place)],
      states: ["driving while plugged in"],
      remedies: loose.flatMap(({ part }) => throughInhibit(analysis, chargers, part)),
    });
  },
});

/** Chargers that are wired: those of the traction pack if there are any, the first one drawn first. */
function chargersOf(analysis: Analysis): readonly NetworkPart[] {
  const traction = chargerOutputs(analysis).map(({ part }) => part);
  const wired = analysis.network.parts.filter((part) => part.kind.traits.charger === true && isDrawnIn(analysis, part));
  const chargers = traction.length > 0 ? traction : wired;
  return [...chargers].sort((a, b) => compareNatural(a.part.id, b.part.id));
}

/** Both ends of the inhibit contact, where it is wired. */
function inhibitOf({ nodes }: NetworkPart): readonly (readonly [NodeIndex, NodeIndex])[] {
  const [a, b] = [nodes.get("inhibit-1"), nodes.get("inhibit-2")];
  return a === undefined || b === undefined ? [] : [[a, b]];
}

/**
 * The one wire at the controller's interlock, else at its logic supply, led over a charger's unused inhibit contact
 * that follows the plug: its end goes to the contact, a new wire of the same kind runs on from there.
 */
function throughInhibit(analysis: Analysis, chargers: readonly NetworkPart[], drive: NetworkPart): readonly Remedy[] {
  const { network } = analysis;
  const wiresAt = (part: NetworkPart, terminal: string) => network.wiresAt([part.part.id, terminal]);
  const charger = chargers.find(
    (part) =>
      part.values.choice("inhibitFollows") === "plugged" &&
      ["inhibit-1", "inhibit-2"].every((pin) => part.nodes.has(pin) && wiresAt(part, pin).length === 0),
  );
  const pin = ["interlock", "logic+"].find((each) => drive.nodes.has(each) && wiresAt(drive, each).length === 1);
  const wire = pin === undefined ? undefined : wiresAt(drive, pin)[0];
  if (charger === undefined || pin === undefined || wire === undefined) return [];
  const [contact, goal]: readonly [WireEnd, WireEnd] = [
    [charger.part.id, "inhibit-1"],
    [drive.part.id, pin],
  ];
  const end = wire.ends[0]?.[0] === goal[0] && wire.ends[0][1] === goal[1] ? 0 : 1;
  const { size, length, colour, insulation, sheath } = wire;
  const fields = { size, length, colour, insulation, sheath };
  return [
    {
      id: "through-inhibit",
      label: `Lead wire ${wire.number} over the inhibit contact of ${charger.part.designation}`,
      apply: (project) => {
        const moved = execute(project, reconnect, { wire: wire.id, end, to: contact }, KINDS).project;
        const from: WireEnd = [charger.part.id, "inhibit-2"];
        return execute(moved, connect, { from, to: goal, fields }, KINDS).project;
      },
    },
  ];
}

function unstatedFollows(chargers: readonly NetworkPart[]): readonly MissingField[] {
  return chargers
    .filter(({ values }) => values.choice("inhibitFollows") === undefined)
    .map(({ part }) => ({ part: part.id, parameter: "inhibitFollows" }));
}
