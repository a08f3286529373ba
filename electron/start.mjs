/**
 * npm start: builds what is stale and opens the editor: in its own window where the desktop shell is on this machine
 * (or can be had within a minute), else served on 127.0.0.1 for a browser. Node built-ins only: it runs before
 * anything is installed. It says which it did, and never waits for an answer.
 */
import { spawn, spawnSync } from "node:child_process";
import * as path from "node:path";
import { fileURLToPath } from "node:url";
import { buildCommandLine } from "./command-line/build.mjs";
import { electronInstaller, findElectron, hasDisplay } from "./find-electron.mjs";
import { ensureInstalled } from "./install.mjs";
import { buildRenderer } from "./web-server/build.mjs";
import { serve } from "./web-server/serve.mjs";

const ROOT = path.resolve(path.dirname(fileURLToPath(import.meta.url)), "..");
const USUAL_PORT = 5180;
const DOWNLOAD_LIMIT_MS = 60_000;

const HELP = `npm start [-- --web] [-- --no-open] [-- --port N] [-- --check]
  --web      in the browser, even where the desktop shell is there
  --no-open  only prints the address
  --port N   serves on port N, or the next that is free
  --check    serves, asks itself for the page once, and ends`;

/**
 * @typedef {object} Wishes
 * @property {boolean} web
 * @property {boolean} open
 * @property {boolean} check
 * @property {number} port
 */

/** @param {readonly string[]} words @returns {Wishes | string} what is wanted, or the sentence that says what is not known */
function wishes(words) {
  const automatic = Boolean(process.env["CI"]);
  /** @type {Wishes} */
  const wanted = { web: false, open: !automatic, check: automatic, port: USUAL_PORT };
  for (let index = 0; index < words.length; index += 1) {
    const word = words[index] ?? "";
    if (word === "--web") wanted.web = true;
    else if (word === "--no-open") wanted.open = false;
    else if (word === "--check") wanted.check = true;
    else if (word === "--port") {
      const port = words[(index += 1)] ?? "";
      if (!/^\d{1,5}$/.test(port) || Number(port) > 65535) return "--port takes a number from 0 to 65535.";
      wanted.port = Number(port);
    } else return `"${word}" is not known.\n${HELP}`;
  }
  return wanted;
}

/** @returns {string | undefined} the desktop shell, downloaded now if that is allowed and works */
function desktopShell() {
  const there = findElectron();
  const installer = electronInstaller();
  if (there !== undefined || installer === undefined) return there;
  if (process.env["CI"] || process.env["LOOMWRIGHT_NO_DOWNLOAD"] === "1") return undefined;
  console.log(
    "The desktop shell is not on this machine yet; fetching it, a minute at most (LOOMWRIGHT_NO_DOWNLOAD=1 skips this) ...",
  );
  spawnSync(process.execPath, [installer], { stdio: "ignore", timeout: DOWNLOAD_LIMIT_MS, killSignal: "SIGKILL" });
  const fetched = findElectron();
  if (fetched === undefined) console.log("It could not be fetched.");
  return fetched;
}

/** @param {string} program @returns {Promise<number>} its exit code */
function openDesktop(program) {
  const flags = [];
  if (process.platform === "linux" && process.getuid?.() === 0) {
    console.log(
      "You are the administrator, to whom the shell refuses its sandbox: it runs without one. Not for daily use.",
    );
    flags.push("--no-sandbox");
  }
  const { ELECTRON_RUN_AS_NODE: _, ...env } = process.env;
  console.log("Loomwright opens in its own window.");
  const child = spawn(program, [...flags, ROOT], { cwd: ROOT, env, stdio: "inherit" });
  for (const signal of /** @type {const} */ (["SIGINT", "SIGTERM"])) process.on(signal, () => child.kill(signal));
  return new Promise((resolve) => {
    child.on("error", (problem) => {
      console.error(`The desktop shell did not start (${problem.message}). Try: npm start -- --web`);
      resolve(2);
    });
    child.on("exit", (code) => resolve(code ?? 1));
  });
}

/** @param {string} url */
function openBrowser(url) {
  /** @type {[string, string[]]} */
  const [program, words] =
    process.platform === "win32"
      ? ["cmd", ["/c", "start", "", url]]
      : process.platform === "darwin"
        ? ["open", [url]]
        : ["xdg-open", [url]];
  const child = spawn(program, words, { stdio: "ignore", detached: true });
  child.on("error", () => console.log("Open that address in a browser."));
  child.unref();
}

/** @param {string} url @returns {Promise<boolean>} whether the page comes */
async function asksItself(url) {
  const answer = await fetch(url, { signal: AbortSignal.timeout(10_000) });
  return answer.ok && (await answer.text()).includes('id="window"');
}

/** @param {string} folder @param {Wishes} wanted @returns {Promise<number>} */
async function openWeb(folder, wanted) {
  const serving = await serve(folder, wanted.port);
  console.log(`Loomwright is served for your browser at ${serving.url}`);
  if (wanted.check) {
    const came = await asksItself(serving.url);
    await serving.close();
    console.log(came ? "The page comes. Served once, as asked; it ends here." : "The page does not come.");
    return came ? 0 : 2;
  }
  console.log("Ctrl+C ends it. What a browser cannot do stands under About.");
  if (wanted.open && hasDisplay()) openBrowser(serving.url);
  else console.log("Open that address in a browser.");
  return 0;
}

async function start() {
  const wanted = wishes(process.argv.slice(2));
  if (typeof wanted === "string") {
    console.error(wanted);
    return 2;
  }
  if (!ensureInstalled()) {
    console.error("The packages that Loomwright needs could not be installed; npm says why above.");
    return 2;
  }
  const note = (/** @type {string} */ text) => console.log(text);
  const folder = await buildRenderer(note);
  await buildCommandLine(note);
  console.log("The same checks without a window: npm run -s loomwright -- check demo-projects/NAME/NAME.loomwright");
  const windowed = !wanted.web && !wanted.check;
  if (windowed && !hasDisplay()) console.log("There is no display here for a window of its own.");
  const shell = windowed && hasDisplay() ? desktopShell() : undefined;
  if (shell === undefined) return openWeb(folder, wanted);
  // Only now: who opens it in a browser need not wait for it.
  const { buildDesktop } = await import("./main/build.mjs");
  await buildDesktop(note);
  return openDesktop(shell);
}

process.stdout.on("error", (problem) => process.exit("code" in problem && problem.code === "EPIPE" ? 0 : 2));
try {
  process.exitCode = await start();
} catch (problem) {
  console.error(`Loomwright could not start: ${problem instanceof Error ? problem.message : String(problem)}`);
  process.exitCode = 2;
}
