/** No contact of the pedal in the enable chain. */
import { defineCheck } from "../define.ts";
import { lookForContact } from "../words/chain-contacts.ts";

export const pedalInterlockMissing = defineCheck({
  id: "pedal-interlock-missing",
  group: "controls",
  title: "No pedal contact in the enable chain",
  about:
    "While driving, moves the contacts that follow the throttle pedal to where they stand with the pedal released, leaves the throttle's signal at full, and looks whether the drive is still enabled. The signal itself does not count: it is what may go wrong.",
  severities: ["NOTICE"],
  source: { text: "Common practice, no source", known: "none" },
  reads: "states",
  withstands: { splice: true, busbar: true, connector: true, contact: true, rename: true },
  without: {},
  messages: {
    missing: {
      title: "No contact of the throttle pedal takes the enable of {parts} away when the pedal is released.",
      why: "If the throttle's signal ever sticks or a wire of it breaks, letting go of the pedal does not stop the vehicle.",
      mend: "Fit a micro-switch to the pedal that closes when it is pressed, and lead the interlock of {parts}, or the coil of its contactor, through it.",
    },
  },
  reasons: {
    never: "Whether a pedal contact holds {parts} off cannot be told, as the drive is enabled in no state.",
    actuator: "Whether a pedal contact holds {parts} off depends on what moves a contact, which is not stated.",
  },
  run(analysis, report) {
    lookForContact(analysis, report, { throttle: "idle" }, true);
  },
});
