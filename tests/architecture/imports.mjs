/** Stage "imports": import directions and cycles. */
import { existsSync } from "node:fs";
import * as path from "node:path";
import { cruise } from "dependency-cruiser";
import { RULES } from "./import-rules.mjs";
import { conclude, PLANTED, ROOT } from "./stage.mjs";

/**
 * @param {string} baseDir
 * @returns {Promise<import("./stage.mjs").Reading>}
 */
async function read(baseDir) {
  const folders = ["core", "electron", "renderer", "tests"].filter((folder) => existsSync(path.join(baseDir, folder)));
  const answer = await cruise(folders, {
    baseDir,
    ruleSet: { forbidden: RULES },
    validate: true,
    tsPreCompilationDeps: true,
    doNotFollow: { path: "node_modules" },
    exclude: { path: "^tests/architecture/planted" },
    outputType: "json",
    // As Node and the bundlers look for what a package offers to an import.
    enhancedResolveOptions: { exportsFields: ["exports"], conditionNames: ["import", "node", "default"] },
  });
  /** @type {import("dependency-cruiser").ICruiseResult} */
  const result = typeof answer.output === "string" ? JSON.parse(answer.output) : answer.output;
  const files = result.modules.filter((module) => folders.some((folder) => module.source.startsWith(`${folder}/`)));
  const reports = result.summary.violations.map((violation) => ({
    rule: violation.rule.name,
    text: `${violation.from} must not import ${violation.to}`,
  }));
  return { files: files.length, reports };
}

const real = await read(ROOT);
const planted = await read(path.join(PLANTED, "imports"));
conclude(
  "imports",
  real,
  planted,
  RULES.map((rule) => rule.name ?? ""),
);
