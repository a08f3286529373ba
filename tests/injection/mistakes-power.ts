/** Mistakes in the traction circuit: polarity, fuses, conductors, contactors, pre-charge. */
import {
  amperesOf,
  bridge,
  eachWith,
  figure,
  joinedAcross,
  ofKind,
  swapEnds,
  wiresAt,
  withoutWire,
  withParameters,
  withWire,
} from "./edit.ts";
import type { Mistake, Site } from "./edit.ts";
import type { Part, Project, Wire } from "../../core/project/document.ts";

const BATTERIES = ["battery-block", "battery-pack"];
const CONTROLLERS = ["dc-controller", "ac-controller"];
export const isTraction = ({ insulation }: Wire): boolean => insulation?.volts === "600 V";

const tractionFuses = (project: Project) =>
  ofKind(project, "fuse").filter(({ parameters }) => parameters["curve"] === "traction-gR");

const swapped =
  (kinds: readonly string[], a: string, b: string) =>
  (project: Project): readonly Site[] =>
    ofKind(project, ...kinds).flatMap(({ id }): Site[] =>
      wiresAt(project, id, a).length > 0 && wiresAt(project, id, b).length > 0
        ? [{ make: () => swapEnds(project, id, a, b) }]
        : [],
    );

const turnedBatteries = (project: Project, ofDuty: (duty: string | null | undefined) => boolean): readonly Site[] =>
  ofKind(project, ...BATTERIES)
    .filter(({ id, parameters }) => {
      const wired = wiresAt(project, id, "+").length > 0 && wiresAt(project, id, "-").length > 0;
      return wired && ofDuty(parameters["duty"]);
    })
    .map(({ id }) => ({ make: () => swapEnds(project, id, "+", "-") }));

const bypassed =
  (kinds: readonly string[], a: string, b: string) =>
  (project: Project): readonly Site[] =>
    ofKind(project, ...kinds).flatMap(({ id }): Site[] =>
      wiresAt(project, id, a).length > 0 && wiresAt(project, id, b).length > 0
        ? [{ make: () => bridge(project, [id, a], [id, b]) }]
        : [],
    );

const mainFuses = (project: Project) =>
  tractionFuses(project).filter(({ parameters }) => figure(parameters["rating"]) > 40);

/**
 * Fuses that alone protect what is behind them: instruments have one in each pole, and a wire of which the main fuses take
 * care by themselves is thick enough without (33 CFR 183.455: up to 150 % of its ampacity).
 */
export const loneFuses = (project: Project) => {
  const main = Math.min(...mainFuses(project).map(({ parameters }) => figure(parameters["rating"])));
  return tractionFuses(project).filter(({ id, parameters }) => {
    const rating = figure(parameters["rating"]);
    const wires = ["1", "2"].flatMap((terminal) => wiresAt(project, id, terminal));
    return rating > 2 && rating <= 40 && main > 1.5 * Math.min(...wires.map(amperesOf));
  });
};

function larger(project: Project, fuses: readonly Pick<Part, "id" | "parameters">[]): Project {
  return fuses.reduce(
    (made, { id, parameters }) =>
      withParameters(made, id, { rating: `${figure(parameters["rating"]) * 20} A`, holderRating: "3000 A" }),
    project,
  );
}

export const POWER_MISTAKES: readonly Mistake[] = [
  {
    id: "block the wrong way round",
    what: "plus and minus of a battery swapped",
    expects: ["block-reversed", "supply-reversed"],
    sites: (project) => turnedBatteries(project, (duty) => duty !== "auxiliary"),
  },
  {
    id: "12 V battery the wrong way round",
    what: "plus and minus of the 12 V battery swapped",
    // It has no string to stand against: what it feeds is reversed.
    expects: ["supply-reversed"],
    showsAt: [...CONTROLLERS, "dc-dc-converter", "battery-monitor", "isolation-monitor", "gauge", "relay", "contactor"],
    sites: (project) => turnedBatteries(project, (duty) => duty === "auxiliary"),
  },
  {
    id: "converter input reversed",
    what: "the converter's input leads swapped",
    expects: ["supply-reversed"],
    sites: swapped(["dc-dc-converter"], "in+", "in-"),
  },
  {
    id: "charger reversed",
    what: "the charger's output leads swapped",
    expects: ["supply-reversed"],
    sites: swapped(["charger"], "out+", "out-"),
  },
  {
    id: "controller reversed",
    what: "B+ and B- swapped",
    expects: ["supply-reversed"],
    sites: swapped(CONTROLLERS, "B+", "B-"),
  },
  {
    id: "gauge reversed",
    what: "the gauge's supply swapped",
    expects: ["supply-reversed"],
    sites: swapped(["gauge"], "supply+", "supply-"),
  },
  {
    id: "branch fuse left out",
    what: "a fuse of a branch taken out and its wires joined",
    expects: ["branch-unprotected", "protection-oversized", "bonded-pole-unprotected"],
    sites: (project) =>
      loneFuses(project).flatMap(({ id }): Site[] => {
        const made = joinedAcross(project, id, "1", "2");
        return made === undefined ? [] : [{ make: () => made }];
      }),
  },
  {
    id: "string without fuses",
    what: "every main fuse taken out",
    // With nothing at the string the first fuse is that of some branch, metres away.
    expects: ["branch-unprotected", "string-unfused", "protection-distant"],
    sites: (project) => {
      let made: Project | undefined = project;
      for (const { id } of mainFuses(project)) {
        made = made === undefined ? undefined : joinedAcross(made, id, "1", "2");
      }
      const done = made;
      return done === undefined || done === project ? [] : [{ make: () => done }];
    },
  },
  {
    id: "fuse too large",
    what: "twenty times the rating put in",
    expects: ["protection-oversized"],
    sites: (project) => [
      ...loneFuses(project).map(({ id, parameters }) => ({
        make: () => larger(project, [{ id, parameters }]),
      })),
      // The main fuses lie in one loop, where one of the right size would still protect the cable: all are raised at once.
      ...(mainFuses(project).length === 0 ? [] : [{ make: () => larger(project, mainFuses(project)) }]),
    ],
  },
  {
    id: "12 V fuse in the traction circuit",
    what: "a fuse for 32 V put in",
    expects: ["protection-voltage-low"],
    sites: (project) =>
      tractionFuses(project).map(({ id }) => ({
        make: () => withParameters(project, id, { voltageDc: "32 V" }),
      })),
  },
  {
    id: "fuse that cannot break",
    what: "a fuse that interrupts 100 A put in",
    expects: ["protection-interrupting-low"],
    sites: (project) =>
      tractionFuses(project).map(({ id }) => ({
        make: () => withParameters(project, id, { interrupting: "100 A" }),
      })),
  },
  {
    id: "fuse holder too weak",
    what: "a holder for 1 A",
    expects: ["holder-underrated"],
    sites: (project) => eachWith(project, ["fuse"], () => ({ holderRating: "1 A" })),
  },
  {
    id: "fuse far from its source",
    what: "three metres of open cable from the 12 V battery to its fuse",
    expects: ["protection-distant", "bonded-pole-unprotected"],
    sites: (project) =>
      project.wires
        .filter(({ ends }) => ends.some((end) => ofKind(project, ...BATTERIES).some(({ id }) => id === end?.[0])))
        .filter(({ ends }) => ends.some((end) => ["F20"].some((name) => partNamed(project, name) === end?.[0])))
        .map(({ id }) => ({
          make: () => withWire(project, id, (wire) => ({ ...wire, length: "3 m", sheath: false })),
        })),
  },
  {
    id: "contactor bypassed",
    what: "a wire across the main contactor",
    expects: ["main-switch-missing", "emergency-stop-ineffective", "precharge-missing", "precharge-order"],
    showsAt: CONTROLLERS,
    sites: bypassed(["contactor"], "line", "load"),
  },
  {
    id: "disconnect bypassed",
    what: "a wire across one pole of the disconnect",
    expects: ["disconnect-missing"],
    showsAt: BATTERIES,
    sites: (project) =>
      ofKind(project, "manual-disconnect").flatMap(({ id }): Site[] => [
        {
          make: () => bridge(bridge(project, [id, "line"], [id, "load"]), [id, "line-2"], [id, "load-2"]),
        },
      ]),
  },
  {
    id: "contact for 24 V",
    what: "a contact rated 24 V in the traction circuit",
    expects: ["contact-voltage-low", "precharge-contact-low"],
    sites: (project) => [
      ...eachWith(project, ["contactor"], () => ({ contactVoltage: "24 V" })),
      ...eachWith(project, ["manual-disconnect"], () => ({ voltageDc: "24 V" })),
      ...ofKind(project, "relay")
        .filter(({ id }) => wiresAt(project, id, "common").some(isTraction))
        .map(({ id }) => ({ make: () => withParameters(project, id, { contactVoltage: "24 V" }) })),
    ],
  },
  {
    id: "contactor too small",
    what: "a contactor for 10 A",
    expects: ["contact-current-low"],
    sites: (project) => eachWith(project, ["contactor", "manual-disconnect"], () => ({ currentContinuous: "10 A" })),
  },
  {
    id: "pre-charge wire missing",
    what: "the wire of the pre-charge resistor left off",
    expects: ["precharge-missing", "state-unreachable", "terminal-unconnected"],
    sites: (project) => prechargeWires(project).map(({ id }) => ({ make: () => withoutWire(project, id) })),
  },
  {
    id: "pre-charge relay bypassed",
    what: "the pre-charge resistor straight across the contactor",
    expects: ["precharge-bypasses-switch"],
    showsAt: CONTROLLERS,
    sites: (project) =>
      ofKind(project, "relay")
        .filter(({ id }) => prechargeWires(project).some(({ ends }) => ends.some((end) => end?.[0] === id)))
        .map(({ id }) => ({ make: () => bridge(project, [id, "common"], [id, "no"]) })),
  },
  {
    id: "pre-charge resistor too weak",
    what: "a resistor that stands a tenth of a joule",
    expects: ["precharge-resistor-overload"],
    sites: (project) => eachWith(project, ["resistor"], () => ({ pulseEnergy: "0.1 J" })),
  },
  {
    id: "pre-charge resistor too large",
    what: "a hundred times the resistance, and a controller that does not wait",
    expects: ["precharge-incomplete", "precharge-order", "precharge-missing"],
    sites: (project) =>
      ofKind(project, "resistor").map(({ id, parameters }) => ({
        make: () => {
          let made = withParameters(project, id, { resistance: `${figure(parameters["resistance"]) * 100} ohm` });
          for (const controller of ofKind(project, ...CONTROLLERS)) {
            made = withParameters(made, controller.id, { prechargeThreshold: "10 %" });
          }
          return made;
        },
      })),
  },
  {
    id: "bus without a drain",
    what: "no bleeder to speak of",
    expects: ["stays-charged"],
    sites: (project) =>
      above60(project) ? eachWith(project, CONTROLLERS, () => ({ bleedResistance: "10 Mohm" })) : [],
  },
  {
    id: "fuse in the motor's lead",
    what: "a fuse between controller and motor",
    expects: ["motor-lead-fused"],
    sites: (project) =>
      ofKind(project, "dc-controller").flatMap(({ id }): Site[] => {
        const [lead] = wiresAt(project, id, "M-");
        const [fuse] = tractionFuses(project);
        if (lead === undefined || fuse === undefined) return [];
        return [{ make: () => withFuse(project, lead, fuse.parameters) }];
      }),
  },
  {
    id: "motor for less voltage",
    what: "a motor for 20 V",
    expects: ["overvoltage"],
    sites: (project) =>
      eachWith(project, ["motor-series", "motor-permanent-magnet", "motor-separately-excited"], () => ({
        voltageMax: "20 V",
      })),
  },
  {
    id: "controller for less voltage",
    what: "a controller for 30 V",
    expects: ["overvoltage"],
    sites: (project) => eachWith(project, CONTROLLERS, () => ({ voltageMax: "30 V" })),
  },
  {
    id: "strings of unequal length",
    what: "one half string two blocks longer",
    expects: ["strings-unequal"],
    sites: (project) =>
      ofKind(project, "battery-pack").length < 4
        ? []
        : eachWith(project, ["battery-pack"], ({ parameters }) => ({
            blocks: String(figure(parameters["blocks"]) + 2),
          })),
  },
  {
    id: "battery overloaded",
    what: "blocks that may give 10 A",
    expects: ["source-overloaded"],
    sites: (project) =>
      eachWith(project, BATTERIES, ({ parameters }) =>
        parameters["duty"] === "traction" ? { dischargeMax: "10 A" } : undefined,
      ),
  },
];

function partNamed(project: Project, designation: string): string | undefined {
  return project.parts.find((part) => part.designation === designation)?.id;
}

/** By the charger or the controller that the drawing states: enough to tell a vehicle of more than 60 V. */
export function above60(project: Project): boolean {
  return ofKind(project, ...CONTROLLERS).some(({ parameters }) => figure(parameters["voltageMax"]) > 75);
}

function prechargeWires(project: Project): readonly Wire[] {
  const resistors = new Set(ofKind(project, "resistor").map(({ id }) => id));
  const relays = new Set(ofKind(project, "relay").map(({ id }) => id));
  return project.wires.filter(
    ({ ends }) => ends.some((end) => resistors.has(end?.[0] ?? "")) && ends.some((end) => relays.has(end?.[0] ?? "")),
  );
}

/** A fuse put into a wire: the wire ends at it, another goes on. */
function withFuse(project: Project, wire: Wire, parameters: Project["parts"][number]["parameters"]): Project {
  const part = (project.lastIds["p"] ?? 0) + 1;
  const next = (project.lastIds["w"] ?? 0) + 1;
  const { routes: _, ...rest } = wire;
  return {
    ...project,
    parts: [...project.parts, { id: `p${part}`, designation: "F99", kind: "fuse", parameters, views: [] }],
    wires: [
      ...project.wires.map((each) =>
        each.id === wire.id ? { ...rest, ends: [wire.ends[0], [`p${part}`, "1"]] as const } : each,
      ),
      { ...rest, id: `w${next}`, number: `W${next}`, ends: [[`p${part}`, "2"], wire.ends[1]] },
    ],
    lastIds: { ...project.lastIds, p: part, w: next },
  };
}
