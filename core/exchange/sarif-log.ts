/** Shapes of a SARIF 2.1.0 log (OASIS standard), as far as this program fills it in. */
import type { Severity } from "../checks/define.ts";

export type SarifLevel = "error" | "warning" | "note" | "none";

/** Of a terminal `parentIndex` is its part (3.33.8: a nested location names its parent by index). */
export interface LogicalLocation {
  /** Its index within `run.logicalLocations`. */
  readonly index: number;
  readonly name: string;
  readonly fullyQualifiedName: string;
  readonly kind: "part" | "terminal" | "wire" | "sheet";
  readonly parentIndex?: number;
}

export interface SarifLocation {
  readonly id?: number;
  readonly message?: { readonly text: string };
  readonly physicalLocation: {
    readonly artifactLocation: { readonly uri: string; readonly index: 0 };
    readonly region?: { readonly startLine: number };
  };
  readonly logicalLocations?: readonly LogicalLocation[];
}

export interface SarifRule {
  readonly id: string;
  readonly name?: string;
  readonly shortDescription?: { readonly text: string };
  readonly fullDescription?: { readonly text: string };
  readonly help?: { readonly text: string; readonly markdown: string };
  readonly defaultConfiguration?: { readonly level: SarifLevel };
  readonly properties?: {
    readonly tags: readonly string[];
    readonly severities: readonly Severity[];
    readonly source: { readonly text: string; readonly known: string };
  };
}

export interface SarifResult {
  readonly ruleId: string;
  readonly ruleIndex: number;
  readonly kind: "fail" | "open";
  readonly level: SarifLevel;
  readonly message: { readonly text: string };
  readonly locations: readonly SarifLocation[];
  readonly relatedLocations?: readonly SarifLocation[];
  readonly partialFingerprints: Readonly<Record<string, string>>;
  readonly suppressions: readonly {
    readonly kind: "external";
    readonly status: "accepted";
    readonly justification: string;
    readonly properties: { readonly who: string; readonly when: string };
  }[];
  readonly properties: Readonly<Record<string, unknown>>;
}

export interface SarifRun {
  readonly tool: {
    readonly driver: {
      readonly name: string;
      readonly version: string;
      readonly semanticVersion: string;
      readonly language: string;
      readonly rules: readonly SarifRule[];
    };
  };
  readonly invocations: readonly { readonly executionSuccessful: true }[];
  readonly artifacts: readonly {
    readonly location: { readonly uri: string };
    readonly roles: readonly ["analysisTarget"];
    readonly mimeType: string;
    readonly encoding: string;
  }[];
  readonly logicalLocations: readonly LogicalLocation[];
  readonly results: readonly SarifResult[];
  readonly properties: Readonly<Record<string, unknown>>;
}

export interface SarifLog {
  readonly $schema: string;
  readonly version: "2.1.0";
  readonly runs: readonly SarifRun[];
}
