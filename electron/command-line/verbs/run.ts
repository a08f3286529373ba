/** run FILE --transition NAME: what happens in time between two operating states. */
import type { TransitionName } from "../../../core/circuit/transition/transition.ts";
import { openAnalysis } from "../open-project.ts";
import { Refusal } from "../refusal.ts";
import { runJson } from "../../../core/documents/run-json.ts";
import { runReport } from "../run-report.ts";
import { json } from "../verb.ts";
import type { Verb } from "../verb.ts";

export const run: Verb = {
  name: "run",
  does: "what happens in time when a key, pedal, plug or stop is moved: events, inrush, arcs, discharge",
  accepts: { files: ["FILE"], options: { transition: "NAME" }, needed: ["transition"], switches: ["json"] },
  run(given) {
    const [name = ""] = given.files;
    const analysis = openAnalysis(name);
    const asked = given.needed("transition");
    const known = analysis.transitionNames;
    const transition = known.includes(asked as TransitionName)
      ? analysis.transition(asked as TransitionName)
      : undefined;
    if (transition === undefined) {
      throw new Refusal(`This drawing has no transition "${asked}". Choose one of: ${known.join(", ")}.`);
    }
    const document = runJson(analysis, transition);
    return { text: given.has("json") ? json(document) : runReport(name, document), exit: 0 };
  },
};
