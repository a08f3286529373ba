/** A reporter for the test runner: counts what passed, failed and was skipped, and keeps the reason of each skip. */
import { mkdirSync, writeFileSync } from "node:fs";
import * as path from "node:path";

const REASON_MISSING = "no reason given";

export default class Tally {
  /**
   * @param {readonly import("vitest/node").TestModule[]} modules
   * @param {readonly unknown[]} unhandled
   */
  onTestRunEnd(modules, unhandled) {
    let passed = 0;
    // What fails outside any test (a file that cannot be loaded, a stray rejection) must not vanish from the count.
    let failed = unhandled.length;
    /** @type {{ name: string, reason: string }[]} */
    const skipped = [];
    for (const module of modules) {
      if (module.errors().length > 0) failed += 1;
      const withoutNote = module.state() === "failed" ? "the set-up before it failed" : REASON_MISSING;
      for (const suite of module.children.allSuites()) if (suite.errors().length > 0) failed += 1;
      for (const test of module.children.allTests()) {
        const result = test.result();
        if (result.state === "passed") passed += 1;
        else if (result.state === "failed") failed += 1;
        else {
          const reason = result.state !== "skipped" ? "it was never started" : (result.note ?? withoutNote);
          skipped.push({ name: `${module.relativeModuleId}: ${test.fullName}`, reason });
        }
      }
    }
    const file = process.env["LOOMWRIGHT_TALLY"];
    if (file === undefined) return;
    mkdirSync(path.dirname(file), { recursive: true });
    writeFileSync(file, JSON.stringify({ passed, failed, skipped }));
  }
}
