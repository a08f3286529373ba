/** What sizes are told with: what decided one, what stays open, what falls short, what stands before a wire. */
import type { Criterion } from "../studies/cable-size.ts";
import type { FuseCriterion } from "../studies/fuse-choice.ts";
import type { DeviceShortfall } from "../studies/fuse-sizes.ts";
import type { Origin } from "../studies/study.ts";
import type { Selectivity } from "../studies/prospective-current.ts";

/** What decided a size, for someone without schooling in electronics. */
export const DECIDES: Readonly<Record<Criterion, string>> = {
  ampacity: "its current",
  "voltage-drop": "voltage lost",
  "short-circuit": "short circuit",
  device: "the fuse before it",
  "least-size": "least size in a vehicle",
  bond: "bond of the case",
};

export const RATING_DECIDES: Readonly<Record<FuseCriterion, string>> = {
  continuous: "its continuous load",
  inrush: "the inrush that it must not open on",
};

const OPEN: Readonly<Record<string, string>> = {
  ampacity: "whether it carries its current",
  "voltage-drop": "how much voltage it loses",
  "short-circuit": "whether it stands a short circuit",
  device: "whether the fuse before it protects it",
  insulation: "how hot it may get (read as 60 °C, the lowest class)",
  rating: "which rating the load needs",
  cable: "which rating its wires allow",
  interrupting: "how large a short circuit it has to break",
  voltage: "how much voltage it has to break",
  inrush: "whether it stands the inrush",
};

/** "whether it carries its current": follows "not decided". */
export const openWords = (what: string): string => OPEN[what] ?? what;

export const SHORTFALLS: Readonly<Record<DeviceShortfall, string>> = {
  load: "too small for its load",
  cable: "too large for its wires",
  voltage: "not for this voltage",
  interrupting: "cannot break the short circuit",
};

export const ORIGINS: Readonly<Record<Origin, string>> = {
  stated: "stated",
  default: "usual value",
  assumed: "assumed",
  solved: "worked out",
  unstated: "not stated",
};

export const SELECTIVITY: Readonly<Record<Selectivity["verdict"], string>> = {
  selective: "clears first",
  lost: "does not clear first",
  unknown: "not known which clears first",
};

/** At most two by name, the rest counted. */
export const inStates = (states: readonly string[]): string =>
  states.length <= 2 ? states.join(", ") : `${states.slice(0, 2).join(", ")} and ${String(states.length - 2)} more`;

/** The device before a wire, or behind it where none stands before. */
export const deviceAt = (how: string, device: string, rating: string): string =>
  `${device} (${rating}) ${how === "ahead" ? "behind" : "before"} it`;

/** More than one conductor is needed: no single one of the table is large enough. */
export const NO_SINGLE = "more than one conductor carries";
export const UNPROTECTED = "no fuse protects it";
export const SHORT_TAP = "short tap";
