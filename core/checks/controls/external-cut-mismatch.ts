/** A contactor that opens with the pedal although the controller forbids it, or does not although it has to. */
import type { Analysis } from "../../circuit/analysis.ts";
import type { NetworkPart } from "../../network/network.ts";
import { defineCheck } from "../define.ts";
import type { MissingField } from "../define.ts";
import { unstatedActuators } from "../words/chain-contacts.ts";
import { isController, isPowered, movedBy, running, unstatedEnable, withMoved } from "../words/drive-enable.ts";
import { partPlace } from "../words/places.ts";

export const externalCutMismatch = defineCheck({
  id: "external-cut-mismatch",
  group: "controls",
  title: "Cut by the pedal against the controller's manual",
  about:
    "Lets go of the pedal while driving, the contacts on it alone, and looks whether that takes the pack off the controller. What the manual says of it (must not, may, must) is stated at the controller.",
  severities: ["WARNING", "NOTICE"],
  source: { text: "The controller's manual", known: "none" },
  reads: "states",
  withstands: { splice: true, busbar: true, connector: true, contact: true, rename: true },
  without: {},
  messages: {
    forbidden: {
      title: "Letting go of the pedal opens the contactor of {part} through {contacts}, which its manual forbids.",
      why: "The contactor then breaks the motor's current and makes onto empty capacitors at every touch of the pedal, which wears or welds it and strains the controller.",
      mend: "Lead {contacts} to the interlock of {part} instead, and leave the coil's feed to key and emergency stop.",
    },
    required: {
      title: "No contact of the pedal opens the contactor of {part}, as its manual demands.",
      why: "Such a controller does not watch itself: if its transistors fail, only the pedal's own contact stops the vehicle.",
      mend: "Fit a micro-switch to the pedal and lead the feed of the contactor's coil through it.",
    },
  },
  reasons: {
    unstated: "Whether a contact of the pedal may open the contactor of {part} is not stated.",
    never: "Whether the pedal opens the contactor of {part} cannot be told, as the drive is enabled in no state.",
    actuator: "Whether the pedal opens the contactor of {part} depends on what moves a contact, which is not stated.",
  },
  run(analysis, report) {
    const { driving, enabled, never } = running(analysis);
    const controllers = [...enabled, ...never].filter(isController);
    if (driving === undefined || controllers.length === 0) {
      report.doesNotApply();
      return;
    }
    const set = movedBy(analysis, driving.condition, { throttle: "idle" }, isContact);
    const released = withMoved(analysis, driving, set);
    for (const drive of controllers) {
      const { part, place } = drive;
      const wanted = part.values.choice("externalCut");
      const facts = { part: { place: partPlace(part) } };
      const skip = (reason: string, missing: readonly MissingField[]): void =>
        report.notChecked({ where: [place], reason, facts, missing });
      if (wanted === "allowed") report.passes(place);
      else if (wanted === undefined) skip("unstated", [{ part: part.part.id, parameter: "externalCut" }]);
      else if (!enabled.includes(drive)) skip("never", unstatedEnable(analysis));
      else if (!isPowered(analysis, released, drive)) {
        if (wanted === "required") report.passes(place);
        else {
          const contacts = cutting(analysis, set, (changed) => !isPowered(analysis, changed, drive));
          report.fails({
            message: "forbidden",
            facts: { ...facts, contacts: { places: contacts } },
            severity: "WARNING",
            where: [place, ...contacts],
            states: [driving.name],
          });
        }
      } else if (unstatedActuators(analysis).length > 0) skip("actuator", unstatedActuators(analysis));
      else if (wanted === "forbidden") report.passes(place);
      else report.fails({ message: "required", facts, severity: "NOTICE", where: [place], states: [driving.name] });
    }
  },
});

const isContact = ({ kind }: NetworkPart): boolean => kind.traits.throttle !== true;

/** Of several contacts those that open the contactor by themselves; all of them where only together they do. */
function cutting(
  analysis: Analysis,
  set: Readonly<Record<string, string>>,
  opens: (changed: ReturnType<typeof withMoved>) => boolean,
): readonly { readonly part: string }[] {
  const { driving } = running(analysis);
  const all = Object.keys(set);
  const alone = all.filter(
    (part) => driving !== undefined && opens(withMoved(analysis, driving, { [part]: set[part] ?? "" })),
  );
  return (alone.length > 0 ? alone : all).map((part) => ({ part }));
}
