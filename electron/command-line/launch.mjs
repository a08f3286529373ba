/** npm run -s loomwright -- VERB ...: builds the command line if its sources are newer, then runs it. Notes go to the standard error output. */
import { pathToFileURL } from "node:url";
import { ensureInstalled } from "../install.mjs";
import { buildCommandLine } from "./build.mjs";

const note = (/** @type {string} */ text) => console.error(text);

async function launch() {
  if (!ensureInstalled()) {
    note("The packages that this checkout needs could not be installed.");
    return 2;
  }
  let bundle;
  try {
    bundle = await buildCommandLine(note);
  } catch (problem) {
    note(`The command line could not be built: ${problem instanceof Error ? problem.message : String(problem)}`);
    return 2;
  }
  const { main } = await import(pathToFileURL(bundle).href);
  return main(process.argv.slice(2), {
    out: (/** @type {string} */ text) => process.stdout.write(text),
    err: (/** @type {string} */ text) => process.stderr.write(text),
  });
}

// A reader that goes away early (a pager, head) is no fault.
process.stdout.on("error", (problem) => process.exit("code" in problem && problem.code === "EPIPE" ? 0 : 2));
process.exitCode = await launch();
