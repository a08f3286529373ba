/** Rules about names and sizes of files, as plain functions over a list of files, so that each can be tried on planted ones. */

export interface SourceFile {
  /** Relative to the root, with forward slashes. */
  readonly name: string;
  readonly text: string;
}

const NOTHING_IN_PARTICULAR = /(^|\/)(utils?|helpers?|common|misc)(\.[a-z.]+)?(\/|$)/;
const MOST_LINES = 400;
const MOST_INTRODUCTION_LINES = 40;
const HAND_ON = /^export (type )?(\*|\{[^}]*\})( as \w+)? from ".*";$/;

/** Machine folders, package registries, and words about the making that tell a reader nothing about the program. */
const FOREIGN = [
  /\btranscripts?\b/i,
  /(^|["'`\s(])\/(work|tmp|home|root)\//,
  /https?:\/\/\S*(registry|mirror|artifactory|nexus)/i,
];

const lineCount = (text: string): number => text.split("\n").length - (text.endsWith("\n") ? 1 : 0);
const isSource = ({ name }: SourceFile): boolean => /\.tsx?$/.test(name);

/** Files whose name, or whose folder's name, says nothing about what they hold. */
export function dumpingGrounds(files: readonly SourceFile[]): string[] {
  return files.filter(({ name }) => NOTHING_IN_PARTICULAR.test(name)).map(({ name }) => name);
}

/** Source files without a line of their own: everything in them is handed on from elsewhere. */
export function barrels(files: readonly SourceFile[]): string[] {
  const handsOn = ({ text }: SourceFile): boolean => {
    const code = text
      .replace(/\/\*[\s\S]*?\*\/|\/\/.*$/gm, "")
      .replace(/\{[^}]*\}/g, (list) => list.replace(/\s+/g, " "));
    const lines = code.split("\n").filter((line) => line.trim() !== "");
    return lines.length > 0 && lines.every((line) => HAND_ON.test(line.trim()));
  };
  return files.filter((file) => isSource(file) && handsOn(file)).map(({ name }) => name);
}

/** "NAME: N lines" for each source file above the limit. */
export function longFiles(files: readonly SourceFile[]): string[] {
  return files
    .filter((file) => isSource(file) && lineCount(file.text) > MOST_LINES)
    .map(({ name, text }) => `${name}: ${lineCount(text)} lines`);
}

/** Folders of core that hold source, in the order met. */
function coreFolders(files: readonly SourceFile[]): string[] {
  const folders = files.filter(isSource).flatMap(({ name }) => /^core\/[^/]+(?=\/)/.exec(name) ?? []);
  return [...new Set(folders)];
}

/** Folders of core without a README.md, or with one that is too long to be read. */
export function withoutIntroduction(files: readonly SourceFile[]): string[] {
  const texts = new Map(files.map(({ name, text }) => [name, text]));
  return coreFolders(files).flatMap((folder) => {
    const text = texts.get(`${folder}/README.md`);
    if (text === undefined) return [`${folder}: no README.md`];
    const lines = lineCount(text);
    return lines > MOST_INTRODUCTION_LINES ? [`${folder}: README.md has ${lines} lines`] : [];
  });
}

/** Folders of core that no import rule covers. */
export function unknownFolders(files: readonly SourceFile[], known: readonly string[]): string[] {
  return coreFolders(files).filter((folder) => !known.includes(folder.slice("core/".length)));
}

/** "NAME:LINE: what stands there" for each word that has no business in the project. */
export function foreignWords(files: readonly SourceFile[]): string[] {
  return files.flatMap(({ name, text }) =>
    text
      .split("\n")
      .flatMap((line, index) =>
        FOREIGN.some((pattern) => pattern.test(line)) ? [`${name}:${index + 1}: ${line.trim().slice(0, 100)}`] : [],
      ),
  );
}
