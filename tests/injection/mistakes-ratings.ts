/** Mistakes in choosing: a device, a setting or a cable that does not suit where it is. */
import { eachWith, farEnds, figure, ofKind, wiresAt, withParameters, withWire } from "./edit.ts";
import type { Mistake, Site } from "./edit.ts";
import { behindContactor, isPackFed } from "./mistakes-circuit.ts";
import { above60, isTraction, loneFuses } from "./mistakes-power.ts";
import type { Part, Project } from "../../core/project/document.ts";

const CONTROLLERS = ["dc-controller", "ac-controller"];

const mainFuses = (project: Project): readonly Part[] =>
  ofKind(project, "fuse").filter(
    ({ parameters }) => parameters["curve"] === "traction-gR" && figure(parameters["rating"]) > 40,
  );

const controllersWith = (project: Project, terminal: string): readonly Part[] =>
  ofKind(project, ...CONTROLLERS).filter(({ id }) => wiresAt(project, id, terminal).length > 0);

/** All main fuses together: those of one loop stand in for each other. */
const eachMainFuse =
  (parameters: (fuse: Part) => Readonly<Record<string, string>>) =>
  (project: Project): readonly Site[] => {
    const fuses = mainFuses(project);
    const make = (): Project => fuses.reduce((made, fuse) => withParameters(made, fuse.id, parameters(fuse)), project);
    return fuses.length === 0 ? [] : [{ make }];
  };

/**
 * Key and stop take the drive its enable together with the coil, so that its current is gone before the contacts part: what
 * they have to break is that of the branches behind them. Fed from the pack these go off with the coil, too.
 */
const opensUnderLoad = (project: Project): boolean => !isPackFed(project) && behindContactor(project).length > 0;

export const RATING_MISTAKES: readonly Mistake[] = [
  {
    id: "regeneration past the ratings",
    what: "a controller that regenerates up to twice what it stands",
    expects: ["regeneration-into-open-contact"],
    sites: (project) =>
      eachWith(project, CONTROLLERS, ({ parameters }) => ({
        regeneration: "yes",
        regenerationCutVoltage: `${figure(parameters["voltageMax"]) * 2} V`,
      })),
  },
  {
    id: "fuses too slow",
    what: "main fuses that take minutes at ten times their rating",
    expects: ["protection-slow", "fault-current-low"],
    sites: eachMainFuse(() => ({ curve: "", curvePoints: "1.25:36000 s; 2:7200 s; 10:600 s; 100:60 s" })),
  },
  {
    id: "fuses too small",
    what: "main fuses of a third of their rating",
    expects: ["protection-nuisance"],
    sites: eachMainFuse(({ parameters }) => ({ rating: `${Math.round(figure(parameters["rating"]) / 3)} A` })),
  },
  {
    id: "branch fuse slower than the main fuse",
    what: "a fuse of a branch of the main fuse's rating",
    expects: ["selectivity-lost"],
    sites: (project) => {
      const main = Math.max(...mainFuses(project).map(({ parameters }) => figure(parameters["rating"])));
      // Behind the pre-charge's fuse a resistor limits the current: no main fuse notices.
      return loneFuses(project)
        .filter(({ id }) => farEnds(project, id, "2").some(([, terminal]) => terminal === "in+"))
        .map(({ id }) => ({
          make: () => withParameters(project, id, { rating: `${main * 8} A`, holderRating: `${main * 8} A` }),
        }));
    },
  },
  {
    id: "long thin lead behind a fuse",
    what: "200 m of lamp wire",
    expects: ["fault-current-low"],
    showsAt: ["fuse"],
    // A converter alone may end at its own limit before any fuse melts.
    sites: (project) =>
      (ofKind(project, "battery-block").every(({ parameters }) => parameters["duty"] !== "auxiliary")
        ? []
        : ofKind(project, "lamp")
      ).flatMap(({ id }) =>
        wiresAt(project, id, "+").map((wire) => ({
          make: () => withWire(project, wire.id, (each) => ({ ...each, length: "200 m" })),
        })),
      ),
  },
  {
    id: "contactor that cannot break",
    what: "a contactor that breaks 1 A",
    expects: ["breaks-under-load"],
    sites: (project) =>
      opensUnderLoad(project) ? eachWith(project, ["contactor"], () => ({ currentBreak: "1 A" })) : [],
  },
  {
    id: "contactor that cannot make",
    what: "a contactor that closes onto 10 A, and a controller that does not wait for the pre-charge",
    expects: ["makes-on-inrush"],
    sites: (project) =>
      ofKind(project, "resistor").flatMap(({ id, parameters }) =>
        ofKind(project, "contactor").map((contactor) => ({
          make: () => {
            const slow = { resistance: `${figure(parameters["resistance"]) * 100} ohm` };
            const made = withParameters(withParameters(project, id, slow), contactor.id, { currentMake: "10 A" });
            return ofKind(project, ...CONTROLLERS).reduce(
              (all, each) => withParameters(all, each.id, { prechargeThreshold: "10 %" }),
              made,
            );
          },
        })),
      ),
  },
  {
    id: "contactor for one direction",
    what: "a polarised contactor, its line side away from the battery",
    expects: ["polarised-contact-reversed"],
    sites: (project) =>
      ofKind(project, "contactor")
        .filter(({ id }) => wiresAt(project, id, "line").length > 0 && wiresAt(project, id, "load").length > 0)
        .map(({ id }) => ({
          make: () => {
            const turned = withParameters(project, id, { polarised: "yes" });
            const swap = (end: Project["wires"][number]["ends"][number]): typeof end =>
              end?.[0] !== id ? end : end[1] === "line" ? [id, "load"] : end[1] === "load" ? [id, "line"] : end;
            return {
              ...turned,
              wires: turned.wires.map((wire) =>
                wire.ends.some((end) => end?.[0] === id && ["line", "load"].includes(end[1]))
                  ? { ...wire, ends: [swap(wire.ends[0]), swap(wire.ends[1])] as const }
                  : wire,
              ),
            };
          },
        })),
  },
  {
    id: "plain diode across the contactor",
    what: "a plain diode where the contactor has to let go fast",
    expects: ["coil-release-slow"],
    sites: (project) =>
      opensUnderLoad(project)
        ? eachWith(project, ["contactor"], ({ parameters }) =>
            parameters["suppression"] === "zener" ? { suppression: "diode" } : undefined,
          )
        : [],
  },
  {
    id: "controller for a higher voltage",
    what: "a controller that needs more than the battery gives",
    expects: ["undervoltage", "state-unreachable"],
    sites: (project) =>
      eachWith(project, CONTROLLERS, ({ parameters }) => ({
        voltageMin: `${figure(parameters["voltageMax"]) * 1.5} V`,
        voltageMax: `${figure(parameters["voltageMax"]) * 2} V`,
      })),
  },
  {
    id: "sense on the other side",
    what: "a controller that wants to sense the pack behind the contactor",
    expects: ["sense-side-wrong"],
    sites: (project) =>
      controllersWith(project, "pack-sense")
        .filter(({ parameters }) => parameters["packSense"] === "source-side")
        .map(({ id }) => ({ make: () => withParameters(project, id, { packSense: "load-side" }) })),
  },
  {
    id: "cut-off that the controller asks for",
    what: "a controller that wants its feed cut with the pedal",
    expects: ["external-cut-mismatch"],
    sites: (project) => eachWith(project, CONTROLLERS, () => ({ externalCut: "required" })),
  },
  {
    id: "both studs bare",
    what: "boots off both poles of a controller",
    expects: ["exposed-opposite-poles"],
    sites: (project) =>
      ofKind(project, ...CONTROLLERS).map(({ id }) => ({
        make: () => bareStuds(project, id),
      })),
  },
  {
    id: "12 V wire among the traction cables",
    what: "a wire insulated for 60 V in the conduit of the main cables",
    expects: ["mixed-cable"],
    sites: (project) => {
      const conduit = project.wires.find((wire) => isTraction(wire) && (wire.conduit ?? "") !== "")?.conduit;
      if (!above60(project) || conduit === undefined) return [];
      return project.wires
        .filter((wire) => !isTraction(wire))
        .map(({ id }) => ({
          make: () =>
            withWire(project, id, (wire) => ({
              ...wire,
              conduit,
              insulation: { ...wire.insulation, volts: "60 V" },
            })),
        }));
    },
  },
];

function bareStuds(project: Project, id: string): Project {
  const made = withParameters(project, id, { finish: "bare" });
  return {
    ...made,
    wires: made.wires.map((wire) =>
      wire.ends.some((end) => end?.[0] === id)
        ? {
            ...wire,
            boots: wire.ends.map((end, index) => end?.[0] !== id && (wire.boots?.[index] ?? true)) as [
              boolean,
              boolean,
            ],
          }
        : wire,
    ),
  };
}
