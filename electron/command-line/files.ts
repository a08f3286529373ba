/**
 * Reading and writing for the command line. A file is looked at before it is read, and written whole under another
 * name before it takes its own, so that nobody ever finds half a file.
 */
import * as fs from "node:fs";
import * as path from "node:path";
import { decodeUtf8, tooLarge } from "../../core/project/bytes.ts";
import { codeOf, readingProblem, writingProblem } from "../files/file-problem.ts";
import { Refusal, firstOf } from "./refusal.ts";

const reading = (name: string, problem: unknown): Refusal => new Refusal(readingProblem(name, problem).message);
const writing = (name: string, problem: unknown): Refusal => new Refusal(writingProblem(name, problem).message);

/** As the system would say it of a folder where a file was meant. */
const IS_FOLDER = Object.assign(new Error("a folder"), { code: "EISDIR" });

/**
 * A text file's content.
 * @throws Refusal when it is missing, no file, longer than a project may be, or not UTF-8
 */
export function readText(name: string): string {
  let bytes: Uint8Array;
  try {
    const facts = fs.statSync(name);
    if (facts.isDirectory()) throw reading(name, IS_FOLDER);
    if (!facts.isFile()) throw new Refusal(`${name}: it is a device or a pipe. Name a file.`);
    const long = tooLarge(facts.size);
    if (long !== undefined) throw new Refusal(`${name}: ${long}`);
    bytes = fs.readFileSync(name);
  } catch (problem) {
    throw problem instanceof Refusal ? problem : reading(name, problem);
  }
  const decoded = decodeUtf8(bytes, (utf8) => new TextDecoder("utf-8", { ignoreBOM: true }).decode(utf8));
  if (!decoded.ok) throw new Refusal(`${name}: ${firstOf(decoded.problems)}`);
  return decoded.text;
}

/** Whether two names lead to the same file. */
export function sameFile(one: string, other: string): boolean {
  const real = (name: string): string => {
    try {
      return fs.realpathSync(name);
    } catch {
      return path.resolve(name);
    }
  };
  return real(one) === real(other);
}

/**
 * Makes a folder, with those above it, unless it is there.
 * @throws Refusal when it cannot be made
 */
export function makeFolder(name: string): void {
  try {
    fs.mkdirSync(name, { recursive: true });
  } catch (problem) {
    if (codeOf(problem) === "EEXIST") throw new Refusal(`${name}: it is a file. Name a folder to write into.`);
    throw writing(name, problem);
  }
}

/**
 * Writes a file whole: under a temporary name beside it, flushed, then renamed.
 * @throws Refusal when it cannot be written; an older file of that name is then untouched
 */
export function writeWhole(name: string, text: string): void {
  let target = name;
  let temporary: string | undefined;
  try {
    if (fs.existsSync(name)) {
      // A link stays a link: what it leads to is replaced.
      target = fs.realpathSync(name);
      if (fs.statSync(target).isDirectory()) throw writing(name, IS_FOLDER);
      fs.accessSync(target, fs.constants.W_OK);
    }
    const fresh = path.join(path.dirname(target), `.${path.basename(target)}.${process.pid}.tmp`);
    const file = fs.openSync(fresh, "wx");
    temporary = fresh;
    try {
      fs.writeFileSync(file, text);
      fs.fsyncSync(file);
    } finally {
      fs.closeSync(file);
    }
    fs.renameSync(fresh, target);
  } catch (problem) {
    if (temporary !== undefined) fs.rmSync(temporary, { force: true });
    if (problem instanceof Refusal) throw problem;
    if (codeOf(problem) === "ENOENT") throw new Refusal(`${name}: its folder does not exist. Make it first.`);
    throw writing(name, problem);
  }
}
