/** Adds the stages of a test run up to its closing lines. Plain data in and out. */

/**
 * @typedef {object} Tally
 * @property {number} passed
 * @property {number} failed
 * @property {{ name: string, reason: string }[]} skipped
 */

/**
 * @typedef {object} StageResult
 * @property {string} name
 * @property {boolean} ok whether its program ended well
 * @property {boolean} counted its tests are counted one by one
 * @property {Tally | undefined} tally what it counted; undefined when it never got that far
 */

/**
 * A stage that is not counted is one test. A counted stage that ran no test, or that ended badly without a failed
 * test to show for it, is one failure: it never looks like a pass.
 * @param {readonly StageResult[]} results
 * @returns {{ lines: string[], exit: 0 | 1 }} the last line is always "N passed, N failed, N skipped"
 */
export function closing(results) {
  let passed = 0;
  let failed = 0;
  let skipped = 0;
  /** @type {string[]} */
  const lines = [];
  for (const { name, ok, counted, tally } of results) {
    if (!counted) {
      if (ok) passed += 1;
      else failed += 1;
      continue;
    }
    const { passed: good, failed: bad, skipped: left } = tally ?? { passed: 0, failed: 0, skipped: [] };
    passed += good;
    failed += bad;
    skipped += left.length;
    for (const test of left) lines.push(`skipped: ${test.name}: ${test.reason}`);
    if (good + bad === 0) {
      lines.push(`${name}: ran no test`);
      failed += 1;
    } else if (!ok && bad === 0) {
      lines.push(`${name}: ended badly although no test failed`);
      failed += 1;
    }
  }
  if (results.length === 0) {
    lines.push("no stage was run");
    failed += 1;
  }
  lines.push(`${passed} passed, ${failed} failed, ${skipped} skipped`);
  return { lines, exit: failed === 0 ? 0 : 1 };
}
