/**
 * Reading and writing for the command line. A file is looked at before it is read, and written whole under another
 * name before it takes its own, so that nobody ever finds half a file.
 */
import * as fs from "node:fs";
import * as path from "node:path";
import { decodeUtf8, tooLarge } from "../../core/project/bytes.ts";
import { Refusal, firstOf } from "./refusal.ts";

function codeOf(problem: unknown): string {
  return problem instanceof Error && "code" in problem ? String(problem.code) : "";
}

const REFUSED: Readonly<Record<string, string>> = {
  ENOENT: "there is no such file. Look at its name and folder.",
  ENOTDIR: "a folder in its path is a file. Look at its name and folder.",
  EISDIR: "it is a folder. Name a file in it.",
  EACCES: "it may not be opened by you. Change its permissions, or copy it.",
  EPERM: "the system does not allow it. Change its permissions, or choose another place.",
  EROFS: "that place can only be read. Choose another place.",
  ENOSPC: "the disk is full. Make room, or choose another place.",
  ENAMETOOLONG: "its name is too long. Choose a shorter one.",
  ELOOP: "its links lead in a circle. Name the file itself.",
};

function refusal(name: string, problem: unknown): Refusal {
  const code = codeOf(problem);
  return new Refusal(`${name}: ${REFUSED[code] ?? `the system refused it (${code === "" ? String(problem) : code}).`}`);
}

/**
 * A text file's content.
 * @throws Refusal when it is missing, no file, longer than a project may be, or not UTF-8
 */
export function readText(name: string): string {
  let bytes: Uint8Array;
  try {
    const facts = fs.statSync(name);
    if (facts.isDirectory()) throw new Refusal(`${name}: ${REFUSED["EISDIR"]}`);
    if (!facts.isFile()) throw new Refusal(`${name}: it is a device or a pipe. Name a file.`);
    const long = tooLarge(facts.size);
    if (long !== undefined) throw new Refusal(`${name}: ${long}`);
    bytes = fs.readFileSync(name);
  } catch (problem) {
    throw problem instanceof Refusal ? problem : refusal(name, problem);
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
    throw refusal(name, problem);
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
      if (fs.statSync(target).isDirectory()) throw new Refusal(`${name}: ${REFUSED["EISDIR"]}`);
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
    throw refusal(name, problem);
  }
}
