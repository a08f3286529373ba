/** Stage "lint": rules that need types, the limit on a file's length, and what core may not call. */
import * as path from "node:path";
import { ESLint } from "eslint";
import { conclude, ROOT } from "./stage.mjs";

/**
 * @param {ESLint.Options} options
 * @param {string[]} patterns
 * @returns {Promise<import("./stage.mjs").Reading>}
 */
async function read(options, patterns) {
  const results = await new ESLint({ cwd: ROOT, ...options }).lintFiles(patterns);
  const reports = results.flatMap((result) =>
    result.messages.map((message) => ({
      rule: message.ruleId ?? "parse",
      text: `${path.relative(ROOT, result.filePath)}:${message.line}:${message.column} ${message.message}`,
    })),
  );
  return { files: results.length, reports };
}

const real = await read({}, ["."]);
const planted = await read({ overrideConfig: [{ ignores: ["!tests/architecture/planted/"] }] }, [
  "tests/architecture/planted/lint",
]);
conclude("lint", real, planted, [
  "@typescript-eslint/no-floating-promises",
  "@typescript-eslint/switch-exhaustiveness-check",
  "@typescript-eslint/no-explicit-any",
  "@typescript-eslint/ban-ts-comment",
  "no-restricted-syntax",
  "no-restricted-properties",
  "max-lines",
  "react-hooks/rules-of-hooks",
  "react-hooks/exhaustive-deps",
]);
