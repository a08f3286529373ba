/**
 * One cause, one finding. A finding folds under another when its check names the other's check as a possible
 * root and the two touch the same place, or when both are of one check and have the same cause; it then no longer
 * counts by itself, but lends its severity.
 */
import { SEVERITIES } from "./define.ts";
import type { Severity } from "./define.ts";
import { placeId } from "./finding.ts";
import type { Finding } from "./finding.ts";

/** Parts, terminals and wires that a finding touches; a terminal touches its part as well. */
function touched(finding: Finding): ReadonlySet<string> {
  const ids = new Set<string>();
  for (const place of [...finding.failure.where, ...(finding.failure.touches ?? [])]) {
    ids.add(placeId(place));
    if ("part" in place) ids.add(place.part);
  }
  return ids;
}

export function worst(a: Severity, b: Severity): Severity {
  return SEVERITIES.indexOf(a) <= SEVERITIES.indexOf(b) ? a : b;
}

/** Input in order of importance; the order of the roots is kept. */
export function fold(findings: readonly Finding[]): readonly Finding[] {
  const ids = new Map(findings.map((finding) => [finding, touched(finding)]));
  const rootOf = new Map<Finding, Finding>();
  const top = (finding: Finding): Finding => {
    let root = finding;
    for (let next = rootOf.get(root); next !== undefined; next = rootOf.get(root)) root = next;
    return root;
  };
  for (const finding of findings) {
    const roots = [...(finding.check.foldsUnder ?? []), ...(finding.failure.foldsUnder ?? [])];
    for (const root of findings) {
      if (root === finding || !roots.includes(root.check.id)) continue;
      if (top(root) === finding) continue;
      const own = ids.get(finding);
      const others = ids.get(root);
      if (own === undefined || others === undefined || ![...own].some((id) => others.has(id))) continue;
      rootOf.set(finding, root);
      break;
    }
  }
  const firstOf = new Map<string, Finding>();
  for (const finding of findings) {
    const { cause } = finding.failure;
    if (cause === undefined) continue;
    const first = firstOf.get(`${finding.check.id} ${cause}`);
    if (first === undefined) firstOf.set(`${finding.check.id} ${cause}`, finding);
    else if (!rootOf.has(finding) && top(first) !== finding) rootOf.set(finding, first);
  }
  const folded = new Map<Finding, Finding[]>();
  for (const finding of findings) {
    const root = top(finding);
    if (root !== finding) folded.set(root, [...(folded.get(root) ?? []), finding]);
  }
  return findings
    .filter((finding) => !rootOf.has(finding))
    .map((finding) => {
      const under = folded.get(finding) ?? [];
      return under.length === 0
        ? finding
        : { ...finding, folded: under, severity: under.reduce((s, f) => worst(s, f.severity), finding.severity) };
    });
}
