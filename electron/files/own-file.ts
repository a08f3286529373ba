/** A file of the program's own, in its folder of settings: small, and no harm if it cannot be read. */
import * as fs from "node:fs/promises";

/** undefined when it is missing, too long or cannot be read */
export async function readOwn(file: string, mostBytes: number): Promise<string | undefined> {
  try {
    const facts = await fs.stat(file);
    return facts.isFile() && facts.size <= mostBytes ? await fs.readFile(file, "utf8") : undefined;
  } catch {
    return undefined;
  }
}

/** undefined when it is no JSON object; a key that would reach into every object is left out */
export function ownFields(text: string | undefined): Readonly<Record<string, unknown>> | undefined {
  if (text === undefined) return undefined;
  try {
    const value: unknown = JSON.parse(text, (key, each: unknown) => (key === "__proto__" ? undefined : each));
    if (typeof value !== "object" || value === null || Array.isArray(value)) return undefined;
    return value as Readonly<Record<string, unknown>>;
  } catch {
    return undefined;
  }
}
