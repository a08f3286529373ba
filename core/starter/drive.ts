/** Controller and motor, with the reversing contactors that a series motor needs. */
import type { Draft } from "./draft.ts";
import { FIELD_CURRENT } from "./figures.ts";
import type { Vehicle } from "./vehicle.ts";

function controllerFields({ answers, figures }: Vehicle): Readonly<Record<string, string>> {
  const packFed = answers.logic === "pack-fed";
  return {
    alwaysOn: "no",
    nominalMin: `${Math.floor(figures.nominal * 0.75)} V`,
    nominalMax: `${Math.ceil(figures.nominal)} V`,
    voltageMin: `${Math.floor(figures.lowest * 0.7)} V`,
    voltageMax: `${Math.ceil(figures.highest * 1.12)} V`,
    currentMax: `${figures.controllerPeak} A`,
    currentContinuous: `${figures.motorCurrent} A`,
    motorCurrentMax: `${figures.controllerPeak} A`,
    inputCapacitance: `${figures.capacitance * 1e3} mF`,
    bleedResistance: `${figures.bleeder} ohm`,
    logicFeed: packFed ? "pack-fed" : "isolated-12v",
    logicMin: packFed ? `${Math.floor(figures.lowest * 0.5)} V` : "9 V",
    logicMax: packFed ? `${Math.ceil(figures.highest * 1.12)} V` : "18 V",
    logicCurrent: packFed ? "100 mA" : "200 mA",
    inputCurrent: "10 mA",
    throttleInput: "resistance-rising",
    throttleIdle: "0 ohm",
    throttleFull: "5 kohm",
    throttleMode: "one-way",
    throttleFaultBand: "yes",
    highPedalLockout: "yes",
    contactorDriver: "low-side",
    driverCurrent: "2 A",
    driverClamp: packFed ? `${Math.ceil(figures.highest * 2.5)} V` : "60 V",
    driverSuppressionRequired: "no",
    outputBootState: "off",
    packSense: "source-side",
    prechargeInternal: "no",
    prechargeThreshold: "95 %",
    prechargeTimeout: "5 s",
    regeneration: "no",
    regenerationCutVoltage: `${Math.ceil(figures.highest * 1.05)} V`,
    serialIsolated: "yes",
    externalCut: "allowed",
    isolation: "20 Mohm",
  };
}

export function drive(draft: Draft, vehicle: Vehicle): void {
  const { answers, figures, looks } = vehicle;
  const ac = answers.motor === "ac";
  draft.part("T1", ac ? "ac-controller" : "dc-controller", "motor bay", controllerFields(vehicle));
  const motor = {
    alwaysOn: "no",
    currentContinuous: `${figures.motorCurrent} A`,
    voltageMax: `${figures.partVolts} V`,
    isolation: "20 Mohm",
  };
  switch (answers.motor) {
    case "series":
      draft.part("M1", "motor-series", "motor bay", {
        ...motor,
        armatureResistance: "15 mohm",
        fieldResistance: "10 mohm",
      });
      if (answers.reversing) reversing(draft, vehicle);
      else {
        draft.wire("T1:M+", "M1:S1", looks.main);
        draft.wire("M1:S2", "M1:A2", looks.main);
      }
      draft.wire("M1:A1", "T1:M-", looks.main);
      break;
    case "permanent-magnet":
      draft.part("M1", "motor-permanent-magnet", "motor bay", { ...motor, resistance: "15 mohm" });
      draft.wire("T1:M+", "M1:+", looks.main);
      draft.wire("M1:-", "T1:M-", looks.main);
      break;
    case "separately-excited":
      draft.part("M1", "motor-separately-excited", "motor bay", {
        ...motor,
        armatureResistance: "15 mohm",
        fieldResistance: `${Math.ceil(figures.highest / FIELD_CURRENT)} ohm`,
        fieldVoltageMax: `${figures.partVolts} V`,
      });
      draft.wire("T1:M+", "M1:A2", looks.main);
      draft.wire("M1:A1", "T1:M-", looks.main);
      draft.wire("T1:F1", "M1:F1", looks.chargeLead);
      draft.wire("T1:F2", "M1:F2", looks.chargeLead);
      break;
    case "ac":
      draft.part("M1", "motor-ac", "motor bay", { ...motor, machine: "induction" });
      for (const phase of ["U", "V", "W"]) draft.wire(`T1:${phase}`, `M1:${phase}`, looks.main);
      for (const pin of [
        "encoder-a",
        "encoder-b",
        "encoder-supply",
        "encoder-ground",
        "temperature-1",
        "temperature-2",
      ]) {
        draft.wire(`T1:${pin}`, `M1:${pin}`, looks.key("GY"));
      }
      break;
  }
}

/** Two changeover contactors turn the field round: at rest both its ends lie on one side and no current flows in it. */
function reversing(draft: Draft, vehicle: Vehicle): void {
  const { figures, looks } = vehicle;
  for (const name of ["Q5", "Q6"]) {
    draft.part(name, "changeover-contactor", "drive box", {
      alwaysOn: "no",
      ...vehicle.coil(10),
      coilInductance: vehicle.answers.logic === "pack-fed" ? "2 H" : "150 mH",
      pickUp: "65 %",
      dropOut: "20 %",
      contactVoltage: `${figures.ratedVolts} V`,
      currentContinuous: `${Math.max(figures.contactorCurrent, figures.controllerPeak)} A`,
      currentMake: "1000 A",
      currentBreak: "1000 A",
      polarised: "no",
      suppression: "zener",
      economiser: "no",
      contactResistance: "0.3 mohm",
      closeTime: "25 ms",
      openTime: "12 ms",
    });
  }
  draft.wire("T1:M+", "Q5:no", looks.main);
  draft.wire("Q5:no", "Q6:no", looks.main);
  draft.wire("Q5:common", "M1:S1", looks.main);
  draft.wire("Q6:common", "M1:S2", looks.main);
  draft.wire("Q5:nc", "Q6:nc", looks.main);
  draft.wire("Q6:nc", "M1:A2", looks.main);
}
