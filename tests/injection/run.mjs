/**
 * `npm run injection`: mistakes put into the sound demos (every place) and into 200 generated vehicles (one seeded place a
 * kind), and how many are found by their check at their place; `--all`: every place on the generated ones as well. Two
 * processes share the work. The table goes into README.md with `--write`.
 */
import { fork } from "node:child_process";
import { readFileSync, writeFileSync } from "node:fs";
import * as os from "node:os";
import * as path from "node:path";
import { fileURLToPath } from "node:url";
import { bundled } from "../harness/bundled.mjs";

const HERE = path.dirname(fileURLToPath(import.meta.url));
const SELF = fileURLToPath(import.meta.url);
const VEHICLES = Number(process.env["LOOMWRIGHT_VEHICLES"] ?? 200);
const README = path.join(HERE, "../README.md");
const MARKS = ["<!-- injection -->", "<!-- /injection -->"];

/** @type {() => Promise<typeof import("./count.ts")>} */
const load = () => bundled(path.join(HERE, "count.ts"));

if (process.send !== undefined) {
  const [share, shares, every] = process.argv.slice(2).map(Number);
  const { count } = await load();
  const done = count(share ?? 0, shares ?? 1, VEHICLES, every === 1);
  process.send(done, () => process.exit(0));
} else {
  const every = process.argv.includes("--all");
  const shares = Math.max(1, Math.min(2, os.cpus().length));
  const begun = Date.now();
  const counts = await Promise.all(Array.from({ length: shares }, (_, share) => counted(share, shares, every)));
  const { expects } = await load();
  const text = report(counts, expects, every);
  console.log(text);
  console.log(`\n${Math.round((Date.now() - begun) / 1000)} s`);
  if (process.argv.includes("--write")) writeTable(text);
  if (counts.some(({ alarms }) => alarms.length > 0)) process.exitCode = 1;
}

/** @returns {Promise<import("./count.ts").Count>} */
function counted(/** @type {number} */ share, /** @type {number} */ shares, /** @type {boolean} */ every) {
  return new Promise((resolve, reject) => {
    const child = fork(SELF, [String(share), String(shares), every ? "1" : "0"]);
    child.on("message", (message) => resolve(/** @type {import("./count.ts").Count} */ (message)));
    child.on("exit", (code) => code !== 0 && reject(new Error(`a share of the count ended with ${code}`)));
  });
}

/**
 * @param {readonly import("./count.ts").Count[]} counts
 * @param {Readonly<Record<string, readonly string[]>>} expects
 * @param {boolean} every
 */
function report(counts, expects, every) {
  /** @type {Map<string, { made: number, found: number, elsewhere: number, missed: string[] }>} */
  const all = new Map();
  for (const { rows } of counts) {
    for (const [id, { made, found, elsewhere, missed }] of rows) {
      const tally = all.get(id) ?? { made: 0, found: 0, elsewhere: 0, missed: [] };
      all.set(id, {
        made: tally.made + made,
        found: tally.found + found,
        elsewhere: tally.elsewhere + elsewhere,
        missed: [...tally.missed, ...missed],
      });
    }
  }
  const lines = [
    `| mistake | expected of | made | found | elsewhere | not found |`,
    `| --- | --- | ---: | ---: | ---: | --- |`,
    ...[...all].sort().map(([id, { made, found, elsewhere, missed }]) => {
      const told = missed.length === 0 ? "" : `${missed.length}: ${missed.slice(0, 3).join(", ")}`;
      return `| ${id} | ${(expects[id] ?? []).join(", ")} | ${made} | ${found} | ${elsewhere === 0 ? "" : elsewhere} | ${told} |`;
    }),
  ];
  const made = [...all.values()].reduce((sum, tally) => sum + tally.made, 0);
  const found = [...all.values()].reduce((sum, tally) => sum + tally.found, 0);
  const alarms = counts.flatMap((count) => count.alarms);
  return [
    `${all.size} kinds of mistake, ${made} drawings, ${found} found by a finding of their check that was not there before, at what was touched (${((100 * found) / made).toFixed(1)} %); ${every ? "every place" : "one seeded place a kind"} on ${VEHICLES} generated vehicles, every place on the sound demos.`,
    "",
    ...lines,
    "",
    alarms.length === 0
      ? "No finding above NOTICE on any of them without a mistake."
      : `${alarms.length} findings above NOTICE on drawings without a mistake:\n${alarms
          .slice(0, 40)
          .map((alarm) => `- ${alarm}`)
          .join("\n")}`,
  ].join("\n");
}

/** @param {string} text */
function writeTable(text) {
  const readme = readFileSync(README, "utf8");
  const [from = -1, to = -1] = MARKS.map((mark) => readme.indexOf(mark));
  if (from < 0 || to < 0) throw new Error("README.md has no place for the table");
  writeFileSync(README, `${readme.slice(0, from)}${MARKS[0]}\n\n${text}\n\n${readme.slice(to)}`);
}
