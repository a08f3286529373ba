/**
 * Whether the tests on the double notice mistakes: each is planted in a copy of the built program, and some test must
 * fail. Part of npm run test:long; by itself: node tests/electron-double/mutations.mjs [NAME ...]
 */
import { spawnSync } from "node:child_process";
import * as fs from "node:fs";
import * as os from "node:os";
import * as path from "node:path";
import { fileURLToPath } from "node:url";
import { DIST, buildDesktop } from "../../electron/main/build.mjs";
import { buildRenderer } from "../../electron/web-server/build.mjs";

const ROOT = path.resolve(path.dirname(fileURLToPath(import.meta.url)), "../..");

/** @typedef {{ name: string, file?: string, from: string | RegExp, to: string }} Mutation */

/** @type {readonly Mutation[]} */
const MUTATIONS = [
  { name: "the page may go elsewhere", from: 'page.on("will-navigate", (event) => event.preventDefault());', to: "" },
  { name: "popups are allowed", from: '{ action: "deny" }', to: '{ action: "allow" }' },
  {
    name: "no strict policy is sent",
    from: '"content-security-policy": CONTENT_SECURITY_POLICY',
    to: '"x-none": "none"',
  },
  { name: "files outside the window's folder are served", from: 'inside.startsWith("..")', to: "false" },
  { name: "permissions are granted", from: "decide(false)", to: "decide(true)" },
  {
    name: "permission checks are granted",
    from: "setPermissionCheckHandler(() => false)",
    to: "setPermissionCheckHandler(() => true)",
  },
  { name: "outside requests are let out", from: "cancel: !FETCHED.test(details.url)", to: "cancel: false" },
  {
    name: "an unknown token is taken for a path",
    from: "return this.#entries.get(token)?.path;",
    to: "return this.#entries.get(token)?.path ?? token;",
  },
  {
    name: "arguments are not looked at",
    from: /shapes\.every\(\(shape\d*, index\) => shape\d*\.fits\(given\[index\]\)\)/,
    to: "true",
  },
  { name: "the close guard is off", from: "if (!this.#dirty || this.#systemEnds) return true;", to: "return true;" },
  { name: "work given up stays set aside", from: "for (const id of [...this.#owned]) await this.drop(id);", to: "" },
  { name: "the window is not sandboxed", from: "sandbox: true", to: "sandbox: false" },
  { name: "the page shares the preload's world", from: "contextIsolation: true", to: "contextIsolation: false" },
  {
    name: "the scheme is registered too late",
    from: "void app.whenReady().then(() => this.#ready());",
    to: "void app.whenReady().then(() => { protocol.registerSchemesAsPrivileged([]); return this.#ready(); });",
  },
  { name: "a question of the page has no answer", from: /gate\.answer\(ASK\.recentFiles.*/, to: "" },
  { name: "a key is in the menu twice", from: '"CmdOrCtrl+E"', to: '"CmdOrCtrl+S"' },
  { name: "the menu lost saving", from: /entry\("save", .*/, to: "" },
  {
    name: "no backup is kept",
    from: "atomicSave(file, bytes, { backup: true })",
    to: "atomicSave(file, bytes, { backup: false })",
  },
  { name: "a second program begins, too", from: "!app.requestSingleInstanceLock()", to: "false" },
  { name: "a second start is not heard", from: "this.#requested.ask(namedDrawing(words, folder));", to: "" },
  { name: "changes by another program go unnoticed", from: "if (changed && token === this.#token)", to: "if (false)" },
  {
    name: "unsaved work is not offered",
    from: "gate.answer(ASK.listRecoveries, [], () => recovery.list());",
    to: "gate.answer(ASK.listRecoveries, [], async () => []);",
  },
  { name: "the preload asks for a part of Node", file: "preload.cjs", from: /^/, to: 'require("node:fs");\n' },
  {
    name: "the preload hands out its messenger",
    file: "preload.cjs",
    from: /exposeInMainWorld\("loomwright", host\)/,
    to: 'exposeInMainWorld("loomwright", { ...host, send: (...words) => import_electron.ipcRenderer.send(...words) })',
  },
];

/** @param {string} copy the folder of the mutated program @returns {boolean} whether some test failed */
function noticed(copy) {
  const run = spawnSync(
    process.execPath,
    ["node_modules/vitest/vitest.mjs", "run", "tests/electron-double", "--bail=1"],
    {
      cwd: ROOT,
      env: { ...process.env, LOOMWRIGHT_DESKTOP: copy },
      encoding: "utf8",
      timeout: 300_000,
    },
  );
  if (!run.stdout.includes("Test Files")) throw new Error(`the tests did not run:\n${run.stdout}${run.stderr}`);
  return run.status !== 0;
}

/** @param {Mutation} mutation @returns {string | undefined} what is wrong, or nothing */
function plant({ name, file = "main.cjs", from, to }) {
  const copy = fs.mkdtempSync(path.join(os.tmpdir(), "loomwright-mutation-"));
  try {
    for (const part of ["main.cjs", "preload.cjs", "renderer", "demos"])
      fs.cpSync(path.join(DIST, part), path.join(copy, part), { recursive: true });
    const target = path.join(copy, file);
    const text = fs.readFileSync(target, "utf8");
    const changed = text.replace(from, () => to);
    if (changed === text) return `${name}: the place to plant it was not found, so nothing is known`;
    fs.writeFileSync(target, changed);
    return noticed(copy) ? undefined : `${name}: NOT noticed`;
  } finally {
    fs.rmSync(copy, { recursive: true, force: true });
  }
}

const wanted = process.argv.slice(2);
const chosen = MUTATIONS.filter(({ name }) => wanted.length === 0 || wanted.some((word) => name.includes(word)));
await buildRenderer(() => undefined);
await buildDesktop(() => undefined);
if (noticed(DIST)) {
  console.log("The tests on the double fail without any planted mistake: mend that first.");
  process.exitCode = 1;
} else {
  let missed = 0;
  for (const mutation of chosen) {
    const problem = plant(mutation);
    if (problem !== undefined) missed += 1;
    console.log(problem ?? `${mutation.name}: noticed`);
  }
  console.log(`${chosen.length - missed} of ${chosen.length} planted mistakes noticed`);
  process.exitCode = missed === 0 ? 0 : 1;
}
