import type { Analysis } from "../../circuit/analysis.ts";
import type { Branch } from "../../network/network.ts";
import type { Joule } from "../../quantity/kinds.ts";
import { capacitorEnergy, CLOSING_SHARE, INRUSH_ENERGY, INRUSH_SOURCE } from "../../standards/precharge.ts";
import { defineCheck } from "../define.ts";
import type { MissingField, Place, Severity } from "../define.ts";
import { addPrecharge } from "../remedies/add-precharge.ts";
import { capacitorClosings } from "../words/capacitor-closings.ts";
import type { Closing } from "../words/capacitor-closings.ts";
import { isFilledInTime } from "../words/fillings.ts";
import { isSelfCharging } from "../words/self-charging.ts";

export const prechargeMissing = defineCheck({
  id: "precharge-missing",
  group: "precharge",
  title: "No pre-charge",
  about:
    "Follows the vehicle from state to state and looks at every contact, disconnect and plug that joins a battery to capacitors through wires and closed contacts alone. If more than 10 % of the battery still stands across it, although everything ahead of it had time to charge them, nothing has charged them. A controller that closes its contactor itself, and charges the capacitors in another state, does so wherever it closes it; and where the course in time shows the capacitors full at each closing, they count as charged. What is lacking of a pre-charge that is too short or comes too late belongs to other checks.",
  severities: ["DANGER", "WARNING", "NOTICE"],
  source: INRUSH_SOURCE,
  reads: "states",
  withstands: {
    splice: true,
    busbar: true,
    connector: "A plug on the way to capacitors that are on the pack while parked closes onto them as well.",
    contact: true,
    rename: true,
  },
  without: {},
  messages: {
    energy: {
      title:
        "Closing {contacts} fills the capacitors at {at} at one blow: they are {volts} short of the battery, and {energy} rushes in.",
      why: "Capacitors take hundreds to thousands of amperes in the first instant; that pits or welds the contact, and no fuse is quick enough to prevent it.",
      mend: "Put a pre-charge resistor, with a contact of its own where the circuit has to be dead, across {contacts}, and close {contacts} only when the capacitors are full.",
    },
    little: {
      title:
        "Closing {contacts} fills the capacitors at {at} at one blow: they are {volts} short of the battery, though only {energy} rushes in.",
      why: "So little makes a small spark at each closing; it wears the contact over the years and welds nothing.",
      mend: "Nothing has to be done; where it closes many times a day, a pre-charge resistor across {contacts} spares the contact.",
    },
    unknown: {
      title:
        "Closing {contacts} fills the capacitors of the controller at one blow: nothing charges those at {at} first, and they are {volts} short of the battery.",
      why: "A controller's capacitors take hundreds to thousands of amperes in the first instant; that pits or welds the contact, and no fuse is quick enough to prevent it.",
      mend: "Put a pre-charge resistor across {contacts} and close {contacts} only when the capacitors are full; fill in the input capacitance to see the energy.",
    },
  },
  reasons: {
    capacitance:
      "How much rushes into the capacitors at {at} on closing {contacts} cannot be told, as the capacitance is not stated.",
    resistor:
      "Whether the capacitors at {at} are full before closing {contacts} depends on a resistor whose value is not stated.",
  },
  foldsUnder: ["coil-sneak-path", "precharge-order", "precharge-incomplete"],
  run(analysis, report) {
    const closings = capacitorClosings(analysis);
    if (closings.length === 0) {
      report.doesNotApply();
      return;
    }
    const resistors = unstatedResistors(analysis);
    const empty: Closing[] = [];
    for (const closing of closings) {
      const charged = isOnto(closing) && (isSelfCharging(analysis, closing) || isFilledInTime(analysis, closing));
      if (charged) report.passes(...contactPlaces([closing]));
      else if (isOnto(closing)) empty.push(closing);
      else {
        const needed = resistors.filter((resistor) => isEmptyWithout(analysis, closing, resistor));
        if (needed.length === 0) report.passes(...contactPlaces([closing]));
        else {
          report.notChecked({
            where: contactPlaces([closing]),
            reason: "resistor",
            facts: factsOf([closing]),
            missing: needed.flatMap(({ part }) =>
              part === undefined ? [] : [{ part: part.part.id, parameter: "resistance" }],
            ),
          });
        }
      }
    }
    for (const group of together(empty)) {
      const known = group.filter(({ capacitance }) => capacitance !== undefined);
      const silent = group.find(
        ({ capacitance, capacitor }) => capacitance === undefined && capacitor.part?.kind.traits.controller === true,
      );
      if (known.length === 0 && silent === undefined) {
        report.notChecked({
          where: contactPlaces(group),
          reason: "capacitance",
          facts: factsOf(group),
          missing: unstatedCapacitances(group),
        });
        continue;
      }
      const energy = energyOf(known);
      const places = [...contactPlaces(group), ...capacitorPlaces(group)];
      const states = [...new Set(group.flatMap(({ before, after }) => [before.name, after]))];
      const severity = silent === undefined ? severityOf(energy) : "DANGER";
      const facts = { ...factsOf(group), energy: { value: energy, dimension: "energy" } } as const;
      report.fails({
        message: silent !== undefined ? "unknown" : severity === "NOTICE" ? "little" : "energy",
        facts,
        severity,
        where: places,
        states,
        ...(silent === undefined ? { value: energy, limit: INRUSH_ENERGY[1], unit: "J" } : {}),
        remedies: addPrecharge(analysis, group),
      });
    }
  },
});

function isOnto({ across, pack }: Closing): boolean {
  return across > CLOSING_SHARE * pack;
}

function severityOf(energy: Joule): Severity {
  const [danger, warning] = INRUSH_ENERGY;
  return energy > danger ? "DANGER" : energy >= warning ? "WARNING" : "NOTICE";
}

/** What rushes in: each capacitor once, at its emptiest. */
function energyOf(closings: readonly Closing[]): Joule {
  const most = new Map<Branch, Joule>();
  for (const { capacitor, capacitance, shortfall } of closings) {
    const energy = capacitorEnergy(capacitance ?? 0, shortfall);
    most.set(capacitor, Math.max(most.get(capacitor) ?? 0, energy));
  }
  return [...most.values()].reduce((sum, energy) => sum + energy, 0);
}

/** Closings that share a contact or a capacitor are one matter. */
function together(closings: readonly Closing[]): readonly (readonly Closing[])[] {
  let groups: Closing[][] = [];
  for (const closing of closings) {
    const touching = groups.filter((group) =>
      group.some(
        ({ capacitor, contacts }) =>
          capacitor === closing.capacitor || contacts.some((contact) => closing.contacts.includes(contact)),
      ),
    );
    groups = [...groups.filter((group) => !touching.includes(group)), [...touching.flat(), closing]];
  }
  return groups;
}

function partPlaces(branches: readonly Branch[]): readonly Place[] {
  const ids = new Set(branches.flatMap(({ part }) => part?.part.id ?? []));
  return [...ids].sort((a, b) => Number(a.slice(1)) - Number(b.slice(1))).map((part) => ({ part }));
}

function contactPlaces(closings: readonly Closing[]): readonly Place[] {
  return partPlaces(closings.flatMap(({ contacts }) => contacts));
}

function capacitorPlaces(closings: readonly Closing[]): readonly Place[] {
  return partPlaces(closings.map(({ capacitor }) => capacitor));
}

function factsOf(closings: readonly Closing[]) {
  return {
    contacts: { places: contactPlaces(closings) },
    at: { places: capacitorPlaces(closings) },
    volts: { value: Math.max(...closings.map(({ shortfall }) => shortfall)), dimension: "voltage" },
  } as const;
}

/** The parameter that a kind reads its capacitance from: the only one of this dimension. */
function unstatedCapacitances(closings: readonly Closing[]): readonly MissingField[] {
  return closings.flatMap(({ capacitor: { part }, capacitance }) => {
    if (part === undefined || capacitance !== undefined) return [];
    const named = Object.entries(part.kind.parameters).find(
      ([, spec]) => "dimension" in spec && spec.dimension === "capacitance",
    );
    return named === undefined ? [] : [{ part: part.part.id, parameter: named[0] }];
  });
}

/** Resistors of unstated value that are solved as if they had a usual one. */
function unstatedResistors(analysis: Analysis): readonly Branch[] {
  return analysis.network.branches.filter(
    ({ role, part }) =>
      role === "resistor" &&
      part?.kind.parameters["resistance"] !== undefined &&
      part.values.number("resistance") === undefined,
  );
}

/** Would the contact close onto empty capacitors if this resistor let nothing through? */
function isEmptyWithout(analysis: Analysis, closing: Closing, resistor: Branch): boolean {
  const cut = analysis.solveChanged(closing.before, { open: [resistor.index] });
  const settled = analysis.settledCapacitors(cut);
  const across = Math.max(...closing.contacts.map(({ a, b }) => Math.abs(settled.between(a, b)) || 0));
  return across > CLOSING_SHARE * closing.pack;
}
