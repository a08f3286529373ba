/** Mistakes in the choice and the laying of traction cables. */
import { areaOf, figure, ofKind, withWire } from "./edit.ts";
import type { Mistake } from "./edit.ts";
import { above60, isTraction } from "./mistakes-power.ts";
import type { Project, Wire } from "../../core/project/document.ts";

const isMain = ({ size }: Wire): boolean => /^(35|50|70|95|120|150) mm2$|^[1-4]\/0 AWG$|^[1-3] AWG$/.test(size ?? "");

export const CONDUCTOR_MISTAKES: readonly Mistake[] = [
  {
    id: "main cable too thin",
    what: "a main cable of 2.5 mm2",
    expects: ["conductor-overloaded"],
    sites: (project) =>
      project.wires
        .filter((wire) => isTraction(wire) && isMain(wire))
        .map(({ id }) => ({ make: () => withWire(project, id, (wire) => ({ ...wire, size: "2.5 mm2" })) })),
  },
  {
    id: "main cable too long",
    what: "so long that it alone loses a fifth of the voltage at the controller's continuous current",
    expects: ["voltage-drop"],
    showsAt: ["dc-controller", "ac-controller", "dc-dc-converter"],
    sites: (project) =>
      ofKind(project, "dc-controller", "ac-controller").flatMap(({ parameters }) =>
        project.wires
          .filter((wire) => isTraction(wire) && isMain(wire))
          .map(({ id }) => ({
            make: () =>
              withWire(project, id, (wire) => {
                const metres = figure(parameters["nominalMin"]) / figure(parameters["currentContinuous"]) / 5;
                return { ...wire, length: `${Math.round((metres * areaOf(wire.size)) / COPPER)} m` };
              }),
          })),
      ),
  },
  {
    id: "insulation for 12 V",
    what: "traction cable insulated for 60 V",
    expects: ["insulation-low"],
    sites: (project) =>
      above60(project)
        ? project.wires.filter(isTraction).map(({ id }) => ({
            make: () =>
              withWire(project, id, (wire) => ({ ...wire, insulation: { ...wire.insulation, volts: "60 V" } })),
          }))
        : [],
  },
  {
    id: "insulation for a cool place",
    what: "45 C insulation on a main cable in the motor bay",
    expects: ["temperature-class", "conductor-overloaded"],
    sites: (project) =>
      project.wires
        .filter((wire) => isTraction(wire) && isMain(wire) && inEngineBay(project, wire))
        .map(({ id }) => ({
          make: () =>
            withWire(project, id, (wire) => ({ ...wire, insulation: { ...wire.insulation, temperature: "45 °C" } })),
        })),
  },
  {
    id: "black traction cable",
    what: "a traction cable outside a box in black",
    expects: ["traction-not-orange"],
    sites: (project) =>
      above60(project)
        ? project.wires
            .filter((wire) => isTraction(wire) && isMain(wire) && (wire.zones?.length ?? 0) > 1)
            .map(({ id }) => ({ make: () => withWire(project, id, (wire) => ({ ...wire, colour: "BK" })) }))
        : [],
  },
  {
    id: "no conduit through the wall",
    what: "a cable through a panel without conduit or grommet",
    expects: ["conductor-unprotected-through-wall"],
    sites: (project) =>
      project.wires
        .filter((wire) => wire.conduit !== undefined && throughPanel(project, wire))
        .map(({ id }) => ({
          make: () => withWire(project, id, ({ conduit: _, ...wire }) => ({ ...wire, conduit: "", grommets: false })),
        })),
  },
  {
    id: "one jumper thinner",
    what: "one jumper of the string of a fraction of the others' size",
    expects: ["jumpers-mixed"],
    sites: (project) =>
      project.wires
        .filter(({ ends }) => ends.every((end) => ofKind(project, "battery-block").some(({ id }) => id === end?.[0])))
        .filter(isTraction)
        .filter(({ size }) => areaOf(size) > 4 * areaOf(THIN))
        .map(({ id }) => ({ make: () => withWire(project, id, (wire) => ({ ...wire, size: THIN })) })),
  },
];

/** Ohm metres at 20 C (IEC 60028: 1/58 ohm mm2/m). */
const COPPER = 1 / 58e6;

/** Of a jumper that somebody had at hand. */
const THIN = "2.5 mm2";

/** Into the cab or out of the battery box: there is sheet metal between. */
const throughPanel = (project: Project, { zones = [] }: Wire): boolean =>
  zones.length > 1 &&
  zones.some((id) => project.zones.some((zone) => zone.id === id && ["passenger", "battery-box"].includes(zone.kind)));

const inEngineBay = (project: Project, { zones = [] }: Wire): boolean =>
  zones.some((id) => project.zones.some((zone) => zone.id === id && zone.kind === "engine"));
