/** No crash switch in the enable chain. */
import { defineCheck } from "../define.ts";
import { switchInCoilFeed } from "../remedies/switch-in-coil-feed.ts";
import { lookForContact } from "../words/chain-contacts.ts";

const INERTIA_SWITCH = { kind: "inertia-switch", terminals: ["common", "nc"], named: "an inertia switch" } as const;

export const inertiaSwitchMissing = defineCheck({
  id: "inertia-switch-missing",
  group: "controls",
  title: "No inertia switch",
  about:
    "While driving, trips every inertia switch and looks whether the drive loses its enable or its pack. A crash signal that the vehicle gives in another way is not seen.",
  severities: ["NOTICE"],
  source: { text: "Common practice, no source", known: "none" },
  reads: "states",
  withstands: {
    splice: true,
    busbar: true,
    connector: true,
    contact: "The contact that is drawn in is an inertia switch, which is what was missing.",
    rename: true,
  },
  without: {},
  messages: {
    missing: {
      title: "No inertia switch cuts {parts} off in a crash.",
      why: "After a crash the pack stays on cables that may be torn, and the motor may go on turning.",
      mend: "Fit an inertia switch into the feed of the main contactor's coil, where a hand can reset it.",
    },
  },
  reasons: {
    never: "Whether an inertia switch cuts {parts} off cannot be told, as the drive is enabled in no state.",
  },
  run(analysis, report) {
    lookForContact(analysis, report, { inertia: "tripped" }, false, (left) =>
      switchInCoilFeed(analysis, left, INERTIA_SWITCH),
    );
  },
});
