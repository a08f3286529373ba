/**
 * The counter-proof of the kill -9 test: the same program, the same moments, but written plainly; some files must be
 * damaged, or that test could not fail. Part of npm run test:long; by itself: node tests/electron/files/plain-writing.mjs [ROUNDS]
 */
import * as path from "node:path";
import * as fs from "node:fs";
import { bundled } from "../../harness/bundled.mjs";

const ROUNDS = Number(process.argv[2] ?? 60);
const { buildSaver, endManyTimes, newFolder } = await bundled(path.join(import.meta.dirname, "ended-program.ts"));
const folder = newFolder();
const saver = await buildSaver(folder, path.join(import.meta.dirname, "saver.ts"));
const plain = await endManyTimes(saver, "plain", ROUNDS);
const whole = await endManyTimes(saver, "whole", ROUNDS);
fs.rmSync(folder, { recursive: true });
console.log(`ended ${ROUNDS} times: written plainly ${plain.damaged} damaged, saved whole ${whole.damaged} damaged`);
process.exitCode = plain.damaged > 0 && whole.damaged === 0 && whole.damagedBackups === 0 ? 0 : 1;
