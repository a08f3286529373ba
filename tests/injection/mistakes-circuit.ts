/** Mistakes of the hand on a whole circuit: a spanner across poles, a wire to the wrong place, a part that does not belong. */
import { added, bridge, farEnds, figure, moved, ofKind, wiresAt, withParameters } from "./edit.ts";
import type { Mistake, Site } from "./edit.ts";
import { above60 } from "./mistakes-power.ts";
import type { Part, Project, WireEnd } from "../../core/project/document.ts";

const CONTROLLERS = ["dc-controller", "ac-controller"];
const BATTERIES = ["battery-block", "battery-pack"];

const isWired = (project: Project, { id }: Part, ...terminals: readonly string[]): boolean =>
  terminals.every((terminal) => wiresAt(project, id, terminal).length > 0);

const wiredOf = (project: Project, kinds: readonly string[], ...terminals: readonly string[]): readonly Part[] =>
  ofKind(project, ...kinds).filter((part) => isWired(project, part, ...terminals));

const traction = (project: Project): readonly Part[] =>
  ofKind(project, ...BATTERIES).filter(({ parameters }) => parameters["duty"] !== "auxiliary");

const auxiliary = (project: Project): Part | undefined =>
  ofKind(project, "battery-block").find(({ parameters }) => parameters["duty"] === "auxiliary");

const site = (make: () => Project): readonly Site[] => [{ make }];

/** Behind the fuse next to the 12 V battery, and its minus. */
function twelveVolts(project: Project): { readonly plus: WireEnd; readonly minus: WireEnd } | undefined {
  const battery = auxiliary(project);
  if (battery === undefined) return undefined;
  for (const [part] of farEnds(project, battery.id, "+")) {
    if (ofKind(project, "fuse").some(({ id }) => id === part)) {
      return { plus: [part, "2"], minus: [battery.id, "-"] };
    }
  }
  return undefined;
}

/** Fuses of branches behind the contactor, with the contactor. */
export const behindContactor = (project: Project): readonly { readonly load: WireEnd; readonly line: WireEnd }[] =>
  ofKind(project, "contactor").flatMap(({ id }) =>
    farEnds(project, id, "load")
      .filter(([part]) => ofKind(project, "fuse").some((fuse) => fuse.id === part))
      .map((load) => ({ load, line: [id, "line"] as const })),
  );

export const CIRCUIT_MISTAKES: readonly Mistake[] = [
  {
    id: "spanner across a battery",
    what: "plus and minus of a battery joined",
    expects: ["source-shorted"],
    sites: (project) =>
      wiredOf(project, BATTERIES, "+", "-").map(({ id }) => ({ make: () => bridge(project, [id, "+"], [id, "-"]) })),
  },
  {
    id: "lamp joined across",
    what: "a wire from plus to minus of a lamp",
    expects: ["load-bypassed"],
    sites: (project) =>
      wiredOf(project, ["lamp"], "+", "-").map(({ id }) => ({ make: () => bridge(project, [id, "+"], [id, "-"]) })),
  },
  {
    id: "12 V off part of the string",
    what: "a 12 V load on one battery of several in a row",
    expects: ["string-tap"],
    sites: (project) =>
      traction(project).length < 2
        ? []
        : traction(project).flatMap(({ id }) =>
            site(() => added(project, "load", { voltage: "12 V", power: "50 W" }, { "+": [id, "+"], "-": [id, "-"] })),
          ),
  },
  {
    id: "diode the wrong way round",
    what: "a diode across a coil with its ring on the minus side",
    expects: ["diode-reversed"],
    sites: (project) =>
      wiredOf(project, ["contactor", "relay"], "coil+", "coil-").map(({ id }) => ({
        make: () => added(project, "diode", {}, { anode: [id, "coil+"], cathode: [id, "coil-"] }),
      })),
  },
  {
    id: "pre-charge kept on",
    what: "the pre-charge relay's coil straight to minus instead of to its output",
    expects: ["precharge-stays-in"],
    sites: (project) => {
      const minus = twelveVolts(project)?.minus;
      return ofKind(project, ...CONTROLLERS).flatMap(({ id }) => {
        const [coil] = farEnds(project, id, "precharge-out").filter(([, terminal]) => terminal === "coil-");
        if (coil === undefined || minus === undefined || isPackFed(project)) return [];
        return site(() => moved(project, [id, "precharge-out"], minus));
      });
    },
  },
  {
    id: "relay that breaks its own coil",
    what: "a relay whose coil is fed through its own break contact",
    expects: ["relay-chatter"],
    sites: (project) => {
      const supply = twelveVolts(project);
      if (supply === undefined) return [];
      const parameters = { coilVoltage: "12 V", coilResistance: "90 ohm" };
      return site(() => {
        const made = added(project, "relay", parameters, { common: supply.plus, "coil-": supply.minus });
        const id = made.parts.at(-1)?.id ?? "";
        return bridge(made, [id, "nc"], [id, "coil+"]);
      });
    },
  },
  {
    id: "branch ahead of the contactor",
    what: "a branch taken from the line side of the main contactor instead of behind it",
    expects: ["live-when-parked"],
    showsAt: ["dc-dc-converter"],
    sites: (project) =>
      above60(project)
        ? behindContactor(project)
            .filter(({ load: [fuse] }) => farEnds(project, fuse, "2").some(([, terminal]) => terminal === "in+"))
            .map(({ load, line }) => ({ make: () => rewired(project, load, [line[0], "load"], line) }))
        : [],
  },
  {
    id: "branch ahead of the disconnect",
    what: "a converter's branch taken from the battery's side of the disconnect",
    expects: ["live-outside-box"],
    sites: (project) =>
      ofKind(project, "manual-disconnect").flatMap(({ id }) =>
        behindContactor(project)
          .filter(({ load: [fuse] }) => farEnds(project, fuse, "2").some(([, terminal]) => terminal === "in+"))
          .map(({ load, line }) => ({ make: () => rewired(project, load, [line[0], "load"], [id, "line"]) })),
      ),
  },
  {
    id: "lamp into a coil's feed",
    what: "an indicator lamp from the battery to the coil's plus",
    expects: ["coil-sneak-path"],
    sites: (project) => {
      const supply = twelveVolts(project);
      if (supply === undefined || isPackFed(project)) return [];
      return wiredOf(project, ["contactor"], "coil+").map(({ id }) => ({
        make: () =>
          added(project, "lamp", { voltage: "12 V", power: "21 W" }, { "+": supply.plus, "-": [id, "coil+"] }),
      }));
    },
  },
  {
    id: "return to other metal",
    what: "a lamp's minus on a frame that nothing joins to the body",
    expects: ["structure-as-return"],
    sites: (project) =>
      wiredOf(project, ["lamp"], "+", "-").map(({ id }) => ({
        make: () => {
          const made = added(project, "chassis-point", { structure: otherStructure(project) }, {});
          const [far] = farEnds(project, id, "-");
          return far === undefined ? made : rewired(made, [id, "-"], far, [made.parts.at(-1)?.id ?? "", "stud"]);
        },
      })),
  },
  {
    id: "return beside the shunt",
    what: "the minus of a consumer on the battery's side of the shunt",
    expects: ["protection-bypassed"],
    sites: (project) =>
      // Where nothing reads the shunt there is nothing that a current could go past.
      wiredOf(project, ["shunt"], "sense-line", "sense-load").flatMap(({ id }) =>
        wiredOf(project, ["dc-dc-converter"], "in-").flatMap((converter) => {
          const [far] = farEnds(project, converter.id, "in-");
          return far === undefined ? [] : site(() => rewired(project, [converter.id, "in-"], far, [id, "line"]));
        }),
      ),
  },
  {
    id: "gauge behind the key",
    what: "the gauge fed from what is live only while driving",
    expects: ["meter-unfed"],
    sites: (project) =>
      isPackFed(project)
        ? []
        : wiredOf(project, ["gauge"], "supply+").flatMap(({ id }) =>
            wiredOf(project, CONTROLLERS, "interlock").flatMap((controller) => {
              const [far] = farEnds(project, id, "supply+");
              return far === undefined
                ? []
                : site(() => rewired(project, [id, "supply+"], far, [controller.id, "interlock"]));
            }),
          ),
  },
  {
    id: "studs full of lugs",
    what: "five wires more on a chassis point",
    expects: ["stud-crowded"],
    sites: (project) => {
      const [one, other] = ofKind(project, "chassis-point").filter((part) => isWired(project, part, "stud"));
      if (one === undefined || other === undefined) return [];
      return site(() => [1, 2, 3, 4, 5].reduce((made) => bridge(made, [one.id, "stud"], [other.id, "stud"]), project));
    },
  },
  {
    id: "steering pump behind the stop",
    what: "the steering pump fed from behind the emergency stop",
    expects: ["assist-lost-with-stop"],
    sites: (project) => {
      const minus = twelveVolts(project)?.minus;
      if (minus === undefined || isPackFed(project)) return [];
      return wiredOf(project, ["emergency-stop"], "11", "12").map(({ id }) => ({
        make: () =>
          added(
            project,
            "load",
            { voltage: "12 V", power: "40 W", purpose: "steering-assist" },
            { "+": [id, "12"], "-": minus },
          ),
      }));
    },
  },
  {
    id: "nothing opens for towing",
    what: "wires across contactor and disconnect",
    expects: ["tow-isolation-missing"],
    showsAt: ["motor-permanent-magnet", "motor-series", "motor-ac", "motor-separately-excited"],
    sites: (project) =>
      wiredOf(project, ["contactor"], "line", "load").length === 0
        ? []
        : site(() => {
            const joined = ofKind(project, "manual-disconnect").reduce(
              (made, { id }) => bridge(bridge(made, [id, "line"], [id, "load"]), [id, "line-2"], [id, "load-2"]),
              project,
            );
            return ofKind(project, "contactor").reduce(
              (made, { id }) => bridge(made, [id, "line"], [id, "load"]),
              joined,
            );
          }),
  },
  {
    id: "charger not isolated",
    what: "a charger whose output is joined to the mains inside",
    expects: ["ac-dc-joined"],
    sites: (project) =>
      ofKind(project, "charger").map(({ id }) => ({
        make: () => withParameters(project, id, { isolated: "no", residualCurrentDevice: "no" }),
      })),
  },
  {
    id: "field fed past the controller",
    what: "the field winding on the controller's supply through a switch, instead of on its field output",
    expects: ["field-can-open"],
    showsAt: ["motor-separately-excited"],
    sites: (project) =>
      wiredOf(project, ["motor-separately-excited"], "F1", "F2").flatMap(({ id }) =>
        ofKind(project, ...CONTROLLERS).flatMap((controller) => {
          const [one, other] = [...farEnds(project, id, "F1"), ...farEnds(project, id, "F2")];
          if (one === undefined || other === undefined) return [];
          return site(() => {
            const made = added(project, "switch", {}, { common: [controller.id, "B+"] });
            const fed = rewired(made, [id, "F1"], one, [made.parts.at(-1)?.id ?? "", "out"]);
            return rewired(fed, [id, "F2"], other, [controller.id, "B-"]);
          });
        }),
      ),
  },
];

/** The wire between two ends leads from the first to somewhere else. */
function rewired(project: Project, kept: WireEnd, from: WireEnd, to: WireEnd): Project {
  const same = (end: WireEnd | null, other: WireEnd): boolean => end?.[0] === other[0] && end[1] === other[1];
  return {
    ...project,
    wires: project.wires.map((wire) =>
      wire.ends.some((end) => same(end, kept)) && wire.ends.some((end) => same(end, from))
        ? { ...wire, ends: [kept, to] }
        : wire,
    ),
  };
}

/** The key's circuit is fed from the pack: there are no 12 V in it. */
export const isPackFed = (project: Project): boolean =>
  ofKind(project, "contactor").some(({ parameters }) => figure(parameters["coilVoltage"]) !== 12);

const otherStructure = (project: Project): string =>
  ofKind(project, "chassis-point").some(({ parameters }) => parameters["structure"] === "frame") ? "body" : "frame";
