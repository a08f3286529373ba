/** No contact of the brake pedal in the enable chain. */
import { defineCheck } from "../define.ts";
import { lookForContact } from "../words/chain-contacts.ts";

export const brakeCutMissing = defineCheck({
  id: "brake-cut-missing",
  group: "controls",
  title: "Brake pedal does not cut the drive",
  about:
    "While driving at full throttle, presses the brake pedal and looks whether a contact of it takes the enable away or feeds a brake input of the controller. Whether the brake is stronger than the motor is not judged.",
  severities: ["NOTICE"],
  source: { text: "Common practice, no source", known: "none" },
  reads: "states",
  withstands: { splice: true, busbar: true, connector: true, contact: true, rename: true },
  without: {},
  messages: {
    missing: {
      title: "With the brake pedal pressed {parts} goes on driving: no contact of the pedal cuts the drive.",
      why: "If the throttle sticks, the brakes have to work against the full pull of the motor.",
      mend: "Fit a brake switch and lead the interlock of {parts} through its break contact, or feed its brake input from the make contact.",
    },
  },
  reasons: {
    never: "Whether the brake pedal cuts {parts} off cannot be told, as the drive is enabled in no state.",
    actuator: "Whether the brake pedal cuts {parts} off depends on what moves a contact, which is not stated.",
  },
  run(analysis, report) {
    lookForContact(analysis, report, { brake: "pressed" }, true);
  },
});
