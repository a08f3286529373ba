/**
 * Findings as SARIF 2.1.0 (OASIS standard, section numbers from it: seen), which build servers and editors show beside a
 * file. The log says of every check what it is; of those that speak, the whole page. There is no `helpUri` (it must be
 * absolute, 3.49.12): a check's page travels along as `help`.
 */
import { CHECKS } from "../checks/catalogue.ts";
import { SEVERITIES } from "../checks/define.ts";
import type { Check, Severity } from "../checks/define.ts";
import { checkPage } from "../checks/page.ts";
import type { CheckDocument, JsonFinding, JsonPlace } from "../checks/report-json.ts";
import type { LogicalLocation, SarifLevel, SarifLocation, SarifLog, SarifResult, SarifRule } from "./sarif-log.ts";

/** Where the findings come from: names as the receiver should show them. */
export interface SarifOrigin {
  /** The project file by its path; best relative to wherever the log is kept. */
  readonly file: string;
  readonly programVersion: string;
  /** The file's text, where it is at hand: a part or wire is then told by its line as well. */
  readonly text?: string;
}

const SCHEMA = "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json";

/** SARIF knows three levels (3.27.10): what can hurt or burn is its highest. */
const LEVEL: Readonly<Record<Severity, SarifLevel>> = {
  DANGER: "error",
  WARNING: "error",
  CAUTION: "warning",
  NOTICE: "note",
};

/**
 * The log of one run. Accepted findings are there, suppressed (3.27.23: once one result states its suppressions, all
 * do); what could not be checked is a result of kind "open", whose level must be "none" (3.27.9, 3.27.10).
 */
export function toSarif(check: CheckDocument, origin: SarifOrigin): SarifLog {
  const named = new Set([...check.findings, ...check.notChecked].map((item) => item.check));
  const titles = new Map(CHECKS.map(({ id, title }) => [id, title]));
  const rules = rulesFor(named);
  const indexOf = new Map(rules.map(({ id }, index) => [id, index]));
  const ruleOf = (id: string): Pick<SarifResult, "ruleId" | "ruleIndex"> => ({
    ruleId: id,
    ruleIndex: indexOf.get(id) ?? -1,
  });
  const places = new Places(origin);
  // Several logical locations in one location would be several names of the same place: each place is one of its own.
  // 3.27.12 wants one location unless all must be changed; the first place is the one that the finding is about.
  const located = (where: readonly JsonPlace[], follows: JsonFinding["folded"]) => {
    const [first, ...others] = where;
    const related = [
      ...others.map((place) => ({ text: "This is part of it.", place })),
      ...follows.flatMap(({ check: id, severity, where: at }) =>
        at.map((place) => ({ text: `${severity}: ${titles.get(id) ?? id} follows from it.`, place })),
      ),
    ];
    return {
      locations: [places.at(first)],
      ...(related.length === 0
        ? {}
        : {
            relatedLocations: related.map(({ text, place }, index) => ({
              id: index + 1,
              message: { text },
              ...places.at(place),
            })),
          }),
    };
  };

  const fail = (finding: JsonFinding): SarifResult => {
    const { value, limit, unit, states, severity, source, accepted, remedies, folded } = finding;
    return {
      ...ruleOf(finding.check),
      kind: "fail",
      level: LEVEL[severity],
      message: { text: [finding.title, finding.why, finding.mend].map(sentence).join(" ") },
      ...located(finding.where, folded),
      partialFingerprints: { "loomwrightFinding/v1": finding.id, "loomwrightFacts/v1": finding.hash },
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
      properties: {
        severity,
        states,
        value,
        limit,
        unit,
        source,
        remedies: remedies.map(({ label }) => label),
        folded: folded.map((under) => ({ check: under.check, severity: under.severity })),
      },
    };
  };
  const open = (item: CheckDocument["notChecked"][number]): SarifResult => ({
    ...ruleOf(item.check),
    kind: "open",
    level: "none",
    message: { text: `Not checked: ${sentence(item.why)}` },
    ...located(item.where, []),
    partialFingerprints: {
      "loomwrightNotChecked/v1": [item.check, ...item.where.map(keyOf).sort(), ...item.fields.map(fieldKey)].join(" "),
    },
    suppressions: [],
    properties: { missing: item.missing },
  });
  const results = [...check.findings.map(fail), ...check.notChecked.map(open)];
  const version = origin.programVersion;
  return {
    $schema: SCHEMA,
    version: "2.1.0",
    runs: [
      {
        tool: { driver: { name: "Loomwright", version, semanticVersion: version, language: "en-GB", rules } },
        invocations: [{ executionSuccessful: true }],
        artifacts: [
          {
            location: { uri: places.uri },
            roles: ["analysisTarget"],
            mimeType: "application/json",
            encoding: "UTF-8",
          },
        ],
        logicalLocations: places.logical,
        results,
        properties: { states: check.states, counts: check.counts },
      },
    ],
  };
}

/** Every check of the catalogue, with its page where the log names it. */
function rulesFor(named: ReadonlySet<string>): readonly SarifRule[] {
  const known = new Set(CHECKS.map(({ id }) => id));
  return [
    ...CHECKS.map((check) => ruleFor(check, named.has(check.id))),
    ...[...named].filter((id) => !known.has(id)).map((id) => ({ id })),
  ];
}

function ruleFor(check: Check, whole: boolean): SarifRule {
  const { id, title, about, severities, source, group } = check;
  const worst = SEVERITIES.find((severity) => severities.includes(severity));
  return {
    id,
    name: title,
    shortDescription: { text: sentence(title) },
    fullDescription: { text: sentence(about) },
    ...(whole
      ? { help: { text: `${sentence(about)} Source: ${sentence(source.text)}`, markdown: checkPage(check) } }
      : {}),
    ...(worst === undefined ? {} : { defaultConfiguration: { level: LEVEL[worst] } }),
    properties: { tags: [group], severities, source: { text: source.text, known: source.known } },
  };
}

/** Places as locations; each part, terminal, wire and sheet stands once in `logical`. */
class Places {
  readonly uri: string;
  readonly logical: LogicalLocation[] = [];
  readonly #byKey = new Map<string, LogicalLocation>();
  readonly #lines: ReadonlyMap<string, number>;

  constructor(origin: SarifOrigin) {
    this.uri = uriOf(origin.file);
    this.#lines = linesOfIds(origin.text ?? "");
  }

  /** Without a place: the file as a whole. */
  at(place: JsonPlace | undefined): SarifLocation {
    const line = place === undefined || !("id" in place) ? undefined : this.#lines.get(place.id);
    const artifactLocation = { uri: this.uri, index: 0 } as const;
    return {
      physicalLocation: { artifactLocation, ...(line === undefined ? {} : { region: { startLine: line } }) },
      ...(place === undefined ? {} : { logicalLocations: [this.#logicalOf(place)] }),
    };
  }

  #logicalOf(place: JsonPlace): LogicalLocation {
    if ("sheet" in place) return this.#kept(keyOf(place), place.sheet, place.sheet, "sheet");
    if ("wire" in place) {
      const name = place.wire === "" ? place.id : place.wire;
      return this.#kept(keyOf(place), name, name, "wire");
    }
    const part = this.#kept(place.id, place.part, place.part, "part");
    if (place.terminal === undefined) return part;
    return this.#kept(keyOf(place), place.terminal, `${place.part}:${place.terminal}`, "terminal", part.index);
  }

  #kept(
    key: string,
    name: string,
    fullyQualifiedName: string,
    kind: LogicalLocation["kind"],
    parentIndex?: number,
  ): LogicalLocation {
    const already = this.#byKey.get(key);
    if (already !== undefined) return already;
    const index = this.logical.length;
    const made = { index, name, fullyQualifiedName, kind, ...(parentIndex === undefined ? {} : { parentIndex }) };
    this.logical.push(made);
    this.#byKey.set(key, made);
    return made;
  }
}

function keyOf(place: JsonPlace): string {
  if ("sheet" in place) return `sheet ${place.sheet}`;
  return "terminal" in place ? `${place.id}:${place.terminal}` : place.id;
}

const fieldKey = (field: object): string => Object.values(field).join(".");

/** Line, from 1, on which the entry with an id begins to be written. */
function linesOfIds(text: string): ReadonlyMap<string, number> {
  const lines = new Map<string, number>();
  text.split("\n").forEach((line, index) => {
    for (const [, id = ""] of line.matchAll(/"id"\s*:\s*"([^"\\]*)"/g)) if (!lines.has(id)) lines.set(id, index + 1);
  });
  return lines;
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

/** A text with its full stop, so that several can stand in a row. */
function sentence(text: string): string {
  return /[.!?]$/.test(text) ? text : `${text}.`;
}
