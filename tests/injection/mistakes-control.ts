/** Mistakes on the 12 V side, in the key's circuit, in what protects people, and on paper. */
import { bridge, eachWith, figure, ofKind, swapEnds, wiresAt, withoutWire, withParameters } from "./edit.ts";
import type { Mistake, Site } from "./edit.ts";
import type { Part, Project, WireEnd } from "../../core/project/document.ts";

const CONTROLLERS = ["dc-controller", "ac-controller"];

const wired = (project: Project, { id }: Part, ...terminals: readonly string[]): boolean =>
  terminals.every((terminal) => wiresAt(project, id, terminal).length > 0);

/** A wire across a contact. */
const across =
  (parts: (project: Project) => readonly Part[], a: string, b: string) =>
  (project: Project): readonly Site[] =>
    parts(project)
      .filter((part) => wired(project, part, a, b))
      .map(({ id }) => ({ make: () => bridge(project, [id, a], [id, b]) }));

const actuator =
  (name: string, contact: string) =>
  (project: Project): readonly Part[] =>
    ofKind(project, "micro-switch").filter(
      (part) =>
        part.parameters["actuator"] === name && wired(project, part, "common", contact) && reachesKey(project, part),
    );

/** One of the switch's wires is of the key's circuit: those of the lamps are other switches. */
function reachesKey(project: Project, { id }: Part): boolean {
  return wiresAt(project, id, "common").some(({ colour }) => colour === "VT" || colour === "OG");
}

/** Its coil hangs on a charger's auxiliary output: it loses its supply, and no switch of it opens. */
const diesWithCharger = (project: Project, { id }: Part): boolean =>
  wiresAt(project, id, "coil+").some(({ ends }) =>
    ends.some((end) => end?.[1] === "aux+" && ofKind(project, "charger").some((charger) => charger.id === end[0])),
  );

const chassis = (project: Project): WireEnd | undefined => {
  const point = ofKind(project, "chassis-point")[0];
  return point === undefined ? undefined : [point.id, "stud"];
};

function toChassis(project: Project, from: readonly WireEnd[]): readonly Site[] {
  const metal = chassis(project);
  if (metal === undefined) return [];
  return from.map((end) => ({ make: () => bridge(project, end, metal) }));
}

const isolatedLogic = (project: Project): readonly Part[] =>
  ofKind(project, ...CONTROLLERS).filter(({ parameters }) => parameters["logicFeed"] === "isolated-12v");

const pedalBypassed = (project: Project): Project =>
  actuator("throttle-pedal", "no")(project).reduce((made, { id }) => bridge(made, [id, "common"], [id, "no"]), project);

export const CONTROL_MISTAKES: readonly Mistake[] = [
  {
    id: "logic reversed",
    what: "logic+ and logic- swapped",
    expects: ["supply-reversed"],
    sites: (project) =>
      isolatedLogic(project)
        .filter((part) => wired(project, part, "logic+", "logic-"))
        .map(({ id }) => ({ make: () => swapEnds(project, id, "logic+", "logic-") })),
  },
  {
    id: "logic fed from the pack",
    what: "12 V electronics joined to the pack's plus",
    expects: ["overvoltage", "logic-overvoltage", "traction-on-auxiliary"],
    sites: (project) =>
      isolatedLogic(project).map(({ id }) => ({ make: () => bridge(project, [id, "B+"], [id, "logic+"]) })),
  },
  {
    id: "pack minus on the chassis",
    what: "the controller's B- joined to the chassis",
    expects: ["traction-on-chassis"],
    sites: (project) =>
      toChassis(
        project,
        ofKind(project, ...CONTROLLERS).map(({ id }): WireEnd => [id, "B-"]),
      ),
  },
  {
    id: "pack plus on the chassis",
    what: "a contactor's load side joined to the chassis",
    expects: ["traction-on-chassis"],
    sites: (project) =>
      toChassis(
        project,
        ofKind(project, "contactor").map(({ id }): WireEnd => [id, "load"]),
      ),
  },
  {
    id: "pack on the 12 V side",
    what: "the pack's minus joined to the 12 V battery's minus",
    expects: ["traction-on-auxiliary", "traction-on-chassis"],
    sites: (project) => {
      const battery = ofKind(project, "battery-block").find(({ parameters }) => parameters["duty"] === "auxiliary");
      if (battery === undefined) return [];
      return ofKind(project, ...CONTROLLERS).map(({ id }) => ({
        make: () => bridge(project, [id, "B-"], [battery.id, "+"]),
      }));
    },
  },
  {
    id: "leak to the chassis",
    what: "an isolation resistance of 1 kohm",
    expects: ["isolation-low", "traction-on-chassis"],
    sites: (project) => eachWith(project, CONTROLLERS, () => ({ isolation: "1 kohm" })),
  },
  {
    id: "lamp without return",
    what: "the minus wire of a lamp or buzzer left off",
    expects: ["no-return-path", "terminal-unconnected"],
    sites: (project) =>
      ofKind(project, "lamp", "buzzer").flatMap(({ id }): Site[] =>
        wiresAt(project, id, "-").map((wire) => ({ make: () => withoutWire(project, wire.id) })),
      ),
  },
  {
    id: "key bypassed",
    what: "a wire across the key switch",
    expects: ["enable-bypasses-key"],
    showsAt: CONTROLLERS,
    sites: across((project) => ofKind(project, "key-switch"), "battery", "ignition"),
  },
  {
    id: "emergency stop bypassed",
    what: "a wire across the emergency stop",
    expects: ["emergency-stop-ineffective", "emergency-stop-missing"],
    showsAt: CONTROLLERS,
    sites: across((project) => ofKind(project, "emergency-stop"), "11", "12"),
  },
  {
    id: "inertia switch bypassed",
    what: "a wire across the inertia switch",
    expects: ["inertia-switch-missing"],
    showsAt: CONTROLLERS,
    sites: across((project) => ofKind(project, "inertia-switch"), "common", "nc"),
  },
  {
    id: "brake contact bypassed",
    what: "a wire across the brake pedal's contact",
    expects: ["brake-cut-missing"],
    showsAt: CONTROLLERS,
    sites: across(actuator("brake-pedal", "nc"), "common", "nc"),
  },
  {
    id: "pedal contact bypassed",
    what: "a wire across the throttle pedal's contact",
    expects: ["pedal-interlock-missing", "throttle-fault-drives"],
    showsAt: CONTROLLERS,
    sites: across(actuator("throttle-pedal", "no"), "common", "no"),
  },
  {
    id: "charger inhibit bypassed",
    what: "a wire across the charger's inhibit contact",
    expects: ["drives-while-charging"],
    sites: across((project) => ofKind(project, "charger"), "inhibit-1", "inhibit-2"),
  },
  {
    id: "charge relay bypassed",
    what: "a wire across the relay behind the charger",
    expects: [
      "charger-joined-while-driving",
      "charger-without-pack",
      "charger-live-at-disconnect",
      "charger-without-monitor",
    ],
    showsAt: ["charger"],
    sites: (project) =>
      ofKind(project, "relay")
        .filter(({ id }) =>
          wiresAt(project, id, "common").some(({ ends }) =>
            ends.some((end) => end?.[1] === "out+" && ofKind(project, "charger").some((each) => each.id === end[0])),
          ),
        )
        .map(({ id }) => ({ make: () => bridge(project, [id, "common"], [id, "no"]) })),
  },
  {
    id: "charger for another voltage",
    what: "a charger that ends 20 % higher",
    expects: ["charger-mismatch"],
    sites: (project) =>
      eachWith(project, ["charger"], ({ parameters }) => ({
        outputVoltageMax: `${figure(parameters["outputVoltageMax"]) * 1.2} V`,
      })),
  },
  {
    id: "charger for another chemistry",
    what: "a charger for other cells",
    expects: ["charger-mismatch"],
    sites: (project) =>
      eachWith(project, ["charger"], ({ parameters }) => ({
        chemistry: parameters["chemistry"] === "nmc" ? "lifepo4" : "nmc",
      })),
  },
  {
    id: "monitor not heard",
    what: "the wire from the monitor to the charge relay left off, the relay fed without it",
    expects: ["charger-without-monitor"],
    sites: (project) =>
      ofKind(project, "battery-monitor").flatMap(({ id }): Site[] =>
        wiresAt(project, id, "charge-enable").map(() => ({
          make: () => bridge(project, [id, "charge-enable"], [id, "supply-"]),
        })),
      ),
  },
  {
    id: "coil for another voltage",
    what: "a coil for 300 V",
    expects: ["coil-voltage-wrong", "coil-weak", "state-unreachable"],
    sites: (project) =>
      eachWith(project, ["contactor", "relay"], () => ({
        coilVoltage: "300 V",
        coilMin: "225 V",
        coilMax: "350 V",
        coilResistance: "9 kohm",
      })),
  },
  {
    id: "coil too long for its driver",
    what: "a driver that carries 10 mA",
    expects: ["driver-overloaded"],
    sites: (project) => eachWith(project, CONTROLLERS, () => ({ driverCurrent: "10 mA" })),
  },
  {
    id: "coil without suppression",
    what: "nothing across the coil",
    expects: ["coil-unsuppressed"],
    sites: (project) =>
      eachWith(project, ["contactor", "changeover-contactor", "relay"], (part) =>
        diesWithCharger(project, part) ? undefined : { suppression: "none" },
      ),
  },
  {
    id: "output that wakes up on",
    what: "outputs on while the controller starts",
    expects: ["output-undefined"],
    sites: (project) => eachWith(project, CONTROLLERS, () => ({ outputBootState: "on" })),
  },
  {
    id: "throttle of another kind",
    what: "a Hall input on a two-wire throttle",
    expects: ["throttle-mismatch"],
    sites: (project) =>
      eachWith(project, CONTROLLERS, () => ({
        throttleInput: "hall",
        throttleIdle: "0.8 V",
        throttleFull: "4.2 V",
      })),
  },
  {
    id: "no lockout",
    what: "a controller that starts with the pedal down, its pedal contact bypassed",
    expects: ["motion-on-enable"],
    sites: (project) =>
      ofKind(project, ...CONTROLLERS).map(({ id }) => ({
        make: () => pedalBypassed(withParameters(project, id, { highPedalLockout: "no" })),
      })),
  },
  {
    id: "throttle fault not seen",
    what: "no fault band, and the idle contact bypassed",
    expects: ["throttle-fault-drives"],
    sites: (project) =>
      ofKind(project, ...CONTROLLERS).map(({ id }) => ({
        make: () => pedalBypassed(withParameters(project, id, { throttleFaultBand: "no" })),
      })),
  },
  {
    id: "converter too small",
    what: "a converter of 1 A",
    expects: ["converter-overloaded"],
    sites: (project) => eachWith(project, ["dc-dc-converter"], () => ({ outputCurrentMax: "1 A" })),
  },
];
