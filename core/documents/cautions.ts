/** What nobody who works on such a vehicle may forget, and what a drawing that passes is not. */

/** Said under every report: an empty list is no promise. */
export const NO_PROOF =
  "A drawing that passes is not proof of safety. The maker's data, local rules and a licensed or competent person come first.";

export const VOLTAGE_KILLS = "Traction voltage kills, and a pack cannot be switched off";

export const WHILE_YOU_WORK: readonly string[] = [
  "Take off rings and watch. Work with one hand where you can. Use insulated tools.",
  "Split the pack at its middle, and take the disconnect out, while anyone works on it.",
  "Measure before you touch.",
  "Capacitors stay charged after key-off: wait, measure, and go on only below 60 V.",
  "First motion with the drive wheels off the ground.",
  "An extinguisher and a second person at hand.",
  "Lead-acid batteries vent hydrogen while they charge: air, and no sparks.",
];
