/**
 * Findings as SARIF 2.1.0 (OASIS standard; 3.27.9 and 3.27.10 as quoted in a public discussion: seen; the rest from memory), which build servers
 * and editors show beside a file.
 */
import type { CheckDocument, JsonFinding, JsonPlace } from "../checks/report-json.ts";

/** Where the findings come from: names as the receiver should show them. */
export interface SarifOrigin {
  /** The project file by its path; best relative to wherever the log is kept. */
  readonly file: string;
  readonly programVersion: string;
}

interface LogicalLocation {
  readonly name: string;
  readonly fullyQualifiedName: string;
  readonly kind: "part" | "terminal" | "wire" | "sheet";
}

interface SarifLocation {
  readonly id?: number;
  readonly message?: { readonly text: string };
  readonly physicalLocation?: { readonly artifactLocation: { readonly uri: string } };
  readonly logicalLocations: readonly LogicalLocation[];
}

export interface SarifResult {
  readonly ruleId: string;
  readonly ruleIndex: number;
  readonly kind: "fail" | "open";
  readonly level: "error" | "warning" | "note" | "none";
  readonly message: { readonly text: string };
  readonly locations: readonly SarifLocation[];
  readonly relatedLocations?: readonly SarifLocation[];
  readonly partialFingerprints?: Readonly<Record<string, string>>;
  readonly suppressions: readonly {
    readonly kind: "external";
    readonly status: "accepted";
    readonly justification: string;
    readonly properties: { readonly who: string; readonly when: string };
  }[];
  readonly properties: Readonly<Record<string, unknown>>;
}

export interface SarifLog {
  readonly $schema: string;
  readonly version: "2.1.0";
  readonly runs: readonly {
    readonly tool: {
      readonly driver: {
        readonly name: string;
        readonly version: string;
        readonly rules: readonly { readonly id: string }[];
      };
    };
    readonly results: readonly SarifResult[];
  }[];
}

const SCHEMA = "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json";

/** SARIF knows three levels (3.27.10): what can hurt or burn is its highest. */
const LEVEL = { DANGER: "error", WARNING: "error", CAUTION: "warning", NOTICE: "note" } as const;

function logical(place: JsonPlace): LogicalLocation {
  if ("part" in place) {
    if (place.terminal === undefined) return { name: place.part, fullyQualifiedName: place.part, kind: "part" };
    return { name: place.terminal, fullyQualifiedName: `${place.part}:${place.terminal}`, kind: "terminal" };
  }
  if ("wire" in place) {
    const name = place.wire === "" ? place.id : place.wire;
    return { name, fullyQualifiedName: name, kind: "wire" };
  }
  return { name: place.sheet, fullyQualifiedName: place.sheet, kind: "sheet" };
}

/** A URI after RFC 3986: relative as the file name is, a `file:` URI (RFC 8089) where it names its root. */
function uriOf(file: string): string {
  const [first = "", ...rest] = file.split(/[\\/]/);
  const drive = /^[A-Za-z]:$/.test(first);
  const path = [drive ? first : encodeURIComponent(first), ...rest.map((segment) => encodeURIComponent(segment))].join(
    "/",
  );
  if (drive) return `file:///${path}`;
  return first === "" && rest.length > 0 ? `file://${path}` : path;
}

/**
 * The log of one run. Accepted findings are there, suppressed (3.27.23: once one result states its suppressions, all
 * do); what could not be checked is a result of kind "open", whose level must be "none" (3.27.9, 3.27.10).
 */
export function toSarif(check: CheckDocument, origin: SarifOrigin): SarifLog {
  const ids = [...new Set([...check.findings, ...check.notChecked].map((item) => item.check))].sort();
  const ruleOf = (id: string): Pick<SarifResult, "ruleId" | "ruleIndex"> => ({
    ruleId: id,
    ruleIndex: ids.indexOf(id),
  });
  const physicalLocation = { artifactLocation: { uri: uriOf(origin.file) } };
  // The first place is the one that the finding is about; SARIF wants one location a place to be mended.
  const locations = (where: readonly JsonPlace[]): readonly SarifLocation[] => [
    { physicalLocation, logicalLocations: where.map(logical) },
  ];

  const fail = (finding: JsonFinding): SarifResult => {
    const { value, limit, unit, states, severity, source, accepted, folded } = finding;
    return {
      ...ruleOf(finding.check),
      kind: "fail",
      level: LEVEL[severity],
      message: { text: [finding.title, finding.why, finding.mend].map(sentence).join(" ") },
      locations: locations(finding.where),
      ...(folded.length === 0
        ? {}
        : {
            relatedLocations: folded.map((follows, index) => ({
              id: index + 1,
              message: { text: `${follows.check} (${follows.severity}) follows from this.` },
              logicalLocations: follows.where.map(logical),
            })),
          }),
      partialFingerprints: { "loomwrightFinding/v1": finding.id },
      suppressions:
        accepted === null
          ? []
          : [
              {
                kind: "external",
                status: "accepted",
                justification: accepted.why,
                properties: { who: accepted.who, when: accepted.when },
              },
            ],
      properties: { severity, states, value, limit, unit, source },
    };
  };
  const open = (item: CheckDocument["notChecked"][number]): SarifResult => ({
    ...ruleOf(item.check),
    kind: "open",
    level: "none",
    message: { text: `Not checked: ${sentence(item.why)}` },
    locations: locations(item.where),
    suppressions: [],
    properties: { missing: item.missing },
  });

  const driver = { name: "Loomwright", version: origin.programVersion, rules: ids.map((id) => ({ id })) };
  return {
    $schema: SCHEMA,
    version: "2.1.0",
    runs: [{ tool: { driver }, results: [...check.findings.map(fail), ...check.notChecked.map(open)] }],
  };
}

/** A text with its full stop, so that several can stand in a row. */
function sentence(text: string): string {
  return /[.!?]$/.test(text) ? text : `${text}.`;
}
