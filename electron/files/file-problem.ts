/** Something about a file that the person can mend: one sentence that names the file and the remedy. */
export class FileProblem extends Error {
  override readonly name = "FileProblem";
}

export function codeOf(cause: unknown): string {
  return cause instanceof Error && "code" in cause ? String(cause.code) : "";
}

const READING: Readonly<Record<string, string>> = {
  ENOENT: "there is no such file. Look at its name and folder, it may have been moved.",
  ENOTDIR: "a folder in its path is a file. Look at its name and folder.",
  EISDIR: "it is a folder. Name a file in it.",
  EACCES: "you may not open it. Change its permissions, or copy it to a place of your own.",
  EPERM: "the system does not allow opening it. Change its permissions, or copy it to a place of your own.",
  EBUSY: "another program holds it. Close it there, then try again.",
  ELOOP: "its links lead in a circle. Choose the file itself.",
};

const WRITING: Readonly<Record<string, string>> = {
  ENOENT: "its folder is gone. Save it in another folder.",
  ENOTDIR: "a folder in its path is a file. Save it in another folder.",
  EISDIR: "a folder has that name. Save it under another name.",
  EACCES: "you may not write there. Save it in a folder of your own, or change the permissions.",
  EPERM: "the system does not allow writing there. Save it in a folder of your own.",
  EROFS: "that place can only be read. Save it on another disk.",
  ENOSPC: "the disk is full. Make room on it, or save on another disk.",
  EDQUOT: "your share of the disk is used up. Make room, or save on another disk.",
  EFBIG: "that disk takes no file so long. Save it on another disk.",
  EBUSY: "another program holds it. Close it there, then save again.",
  ENAMETOOLONG: "its name is too long. Save it under a shorter one.",
  EIO: "the disk does not take it. Save it on another disk now.",
};

function problem(
  name: string,
  cause: unknown,
  known: Readonly<Record<string, string>>,
  otherwise: string,
): FileProblem {
  if (cause instanceof FileProblem) return cause;
  const code = codeOf(cause);
  const sentence = known[code] ?? `the system refused it (${code === "" ? String(cause) : code}). ${otherwise}`;
  return new FileProblem(`${name}: ${sentence}`, { cause });
}

/** @param name what the person calls the file */
export const readingProblem = (name: string, cause: unknown): FileProblem =>
  problem(name, cause, READING, "Copy the file to another place and open it there.");

/** @param name what the person calls the file; what was there before is untouched */
export const writingProblem = (name: string, cause: unknown): FileProblem =>
  problem(name, cause, WRITING, "Save it under another name or in another place.");
