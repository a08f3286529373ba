/**
 * What every stage that runs a checking tool has in common: it reads the real tree, which must be clean, and a
 * planted tree, which must not be. A checker that reads no file, or that stays silent over a planted violation,
 * is dead, and a dead checker fails the stage.
 */
import * as path from "node:path";
import { fileURLToPath } from "node:url";

export const ROOT = path.resolve(path.dirname(fileURLToPath(import.meta.url)), "../..");
export const PLANTED = path.join(ROOT, "tests/architecture/planted");

/**
 * @typedef {object} Reading
 * @property {number} files how many files the tool says it read
 * @property {{ rule: string, text: string }[]} reports what it found
 */

/**
 * @param {string} name
 * @param {Reading} real
 * @param {Reading} planted
 * @param {readonly string[]} expected rules that must each be reported on the planted tree
 * @returns {void} prints the outcome and sets the exit code
 */
export function conclude(name, real, planted, expected) {
  /** @type {string[]} */
  const failures = [];
  if (real.files === 0) failures.push(`${name}: read no file, so it proved nothing`);
  if (planted.files === 0) failures.push(`${name}: read no planted file, so nobody knows whether it is alive`);
  for (const { rule, text } of real.reports) failures.push(`${text}  [${rule}]`);
  const seen = new Set(planted.reports.map((report) => report.rule));
  const missed = expected.filter((rule) => !seen.has(rule));
  for (const rule of missed) failures.push(`${name}: the planted violation of ${rule} was not noticed`);
  for (const failure of failures) console.log(failure);
  const noticed = `${expected.length - missed.length} of ${expected.length} planted violations noticed`;
  console.log(`${name}: ${real.files} files read, ${real.reports.length} reports, ${noticed}`);
  process.exitCode = failures.length === 0 ? 0 : 1;
}
