/**
 * The document: what a `.loomwright` file holds, as plain readonly data. Ids are never reused; lists keep their
 * order; an edit keeps the identity of every branch it does not touch. Quantities are stored as typed,
 * normalised text. Absent = default (unconfirmed), present = confirmed, null = known to be unknown.
 */
import type { Millimetre } from "../quantity/kinds.ts";

export type PartId = string;
export type WireId = string;
export type SheetId = string;
export type CableId = string;
export type ZoneId = string;
export type EnclosureId = string;

/** `["p12","+"]` */
export type WireEnd = readonly [part: PartId, terminal: string];

export interface Project {
  readonly format: "loomwright-project";
  readonly version: 1;
  readonly title: TitleBlock;
  /** A declared low-voltage vehicle whose pack negative is the chassis on purpose. */
  readonly sharedNegative?: boolean | null;
  readonly sheets: readonly Sheet[];
  readonly zones: readonly Zone[];
  readonly enclosures: readonly Enclosure[];
  readonly cables: readonly Cable[];
  readonly parts: readonly Part[];
  readonly wires: readonly Wire[];
  readonly netNames: readonly { readonly at: WireEnd; readonly name: string }[];
  readonly states: readonly UserState[];
  readonly accepted: readonly AcceptedFinding[];
  readonly readings: readonly Reading[];
  readonly progress: readonly { readonly what: string; readonly who: string; readonly when: string }[];
  readonly revisions: readonly {
    readonly index: string;
    readonly when: string;
    readonly who: string;
    readonly what: string;
  }[];
  readonly presets: readonly { readonly name: string; readonly kind: string; readonly parameters: Parameters }[];
  /** Highest number ever given out by letter (p, w, s, c, z, e), so that an id is never reused. */
  readonly lastIds: Readonly<Record<string, number>>;
  readonly extra?: unknown;
}

export type Parameters = Readonly<Record<string, string | null>>;

export interface TitleBlock {
  readonly vehicle?: string;
  readonly title?: string;
  readonly supplementaryTitle?: string;
  readonly owner?: string;
  readonly number?: string;
  readonly author?: string;
  readonly approvedBy?: string;
  readonly date?: string;
  readonly revision?: string;
  readonly documentType?: string;
  readonly language?: string;
}

export interface Sheet {
  readonly id: SheetId;
  readonly name: string;
  readonly paper: "A4" | "A3" | "Letter" | "Tabloid";
  readonly orientation: "landscape" | "portrait";
}

export type ZoneKind = "outside" | "engine" | "passenger" | "luggage" | "underfloor" | "battery-box" | "other";
export interface Zone {
  readonly id: ZoneId;
  readonly kind: ZoneKind;
  readonly name?: string;
  readonly ambient?: string | null;
}

export interface Enclosure {
  readonly id: EnclosureId;
  readonly name: string;
  readonly zone?: ZoneId;
  /** Opens only with a tool. */
  readonly toolClosed?: boolean | null;
  readonly conductive?: boolean | null;
  readonly voltageSign?: boolean | null;
}

export interface Cable {
  readonly id: CableId;
  readonly name: string;
  readonly sheath?: boolean | null;
  readonly screened?: boolean | null;
  readonly conduit?: string | null;
}

export interface ViewPlacement {
  readonly view: string;
  readonly sheet: SheetId;
  /** mm from the paper's top left, y down, multiples of 2.5. */
  readonly x: Millimetre;
  readonly y: Millimetre;
  readonly turn: 0 | 90 | 180 | 270;
  /** Mirrored left-right first, then turned clockwise. */
  readonly mirrored: boolean;
}

export interface Part {
  readonly id: PartId;
  readonly designation: string;
  readonly kind: string;
  readonly parameters: Parameters;
  readonly views: readonly ViewPlacement[];
  readonly zone?: ZoneId;
  readonly enclosure?: EnclosureId;
  /** mm on its panel. */
  readonly panel?: { readonly x: Millimetre; readonly y: Millimetre };
  /** Terminals that lie under a fixed cover. */
  readonly covers?: readonly string[];
  /** The part's own face, where it differs from its kind's. */
  readonly face?: Readonly<Record<string, readonly [Millimetre, Millimetre]>>;
  readonly note?: string;
  readonly extra?: unknown;
}

export interface Insulation {
  readonly material?: string;
  readonly volts?: string | null;
  readonly temperature?: string | null;
}

export interface Wire {
  readonly id: WireId;
  readonly number: string;
  readonly ends: readonly [WireEnd | null, WireEnd | null];
  readonly size?: string | null;
  readonly length?: string | null;
  /** Letter code after IEC 60757. */
  readonly colour?: string | null;
  readonly insulation?: Insulation;
  readonly cable?: CableId;
  readonly core?: string;
  /** In a sheath or enclosure throughout. */
  readonly sheath?: boolean | null;
  readonly routes?: readonly {
    readonly sheet: SheetId;
    readonly points: readonly (readonly [Millimetre, Millimetre])[];
  }[];
  /** Hole of the lug at each end, e.g. "M8". */
  readonly lugs?: readonly [string | null, string | null];
  readonly boots?: readonly [boolean | null, boolean | null];
  readonly torque?: readonly [string | null, string | null];
  readonly zones?: readonly ZoneId[];
  readonly conduit?: string | null;
  /** Grommets or glands wherever it passes a wall; false: it lies on the bare edge of a hole somewhere. */
  readonly grommets?: boolean | null;
  readonly note?: string;
  readonly extra?: unknown;
}

/** A state of the user's own: a built-in one with some controls set by hand. */
export interface UserState {
  readonly name: string;
  readonly from: string;
  readonly set: Readonly<Record<PartId, string>>;
}

export interface AcceptedFinding {
  /** check + sorted ids of its places + variant. */
  readonly key: string;
  readonly who: string;
  readonly when: string;
  readonly why: string;
  readonly hash: string;
}

export interface Reading {
  readonly state: string;
  readonly plus: string;
  readonly minus: string;
  readonly volts: string;
}
