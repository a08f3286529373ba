/**
 * Older files, brought up step by step. A step NNNN-*.ts turns version NNNN into the next one, imports nothing
 * (so that later changes cannot reach it), and is proven on a file of that version kept under tests/files/.
 */
export const CURRENT_VERSION = 1;

export interface Migration {
  /** The version that it reads; it leaves the next one. */
  readonly from: number;
  /** A new document; the given one stays as it is. */
  readonly step: (document: Readonly<Record<string, unknown>>) => Record<string, unknown>;
}

/** In order of `from`. Version 1 is the first that was ever written, so there is no step yet. */
export const MIGRATIONS: readonly Migration[] = [];

export type Migrated =
  | { readonly ok: true; readonly document: Readonly<Record<string, unknown>>; readonly notes: readonly string[] }
  | { readonly ok: false; readonly problem: string };

/** Brings a document to the current version; a newer or unknown one is refused with the reason. */
export function migrate(
  document: Readonly<Record<string, unknown>>,
  migrations: readonly Migration[] = MIGRATIONS,
): Migrated {
  const { version } = document;
  if (version === undefined) {
    return { ok: false, problem: `The project: its version is missing. Add "version":${CURRENT_VERSION}.` };
  }
  if (typeof version !== "number" || !Number.isInteger(version)) {
    return { ok: false, problem: `The project, version: this must be a whole number, such as ${CURRENT_VERSION}.` };
  }
  if (version > CURRENT_VERSION) {
    return {
      ok: false,
      problem:
        `This project was saved by a newer Loomwright (file version ${version}; this one reads up to ` +
        `version ${CURRENT_VERSION}). Open it with the newer one.`,
    };
  }
  let current = document;
  for (let at = version; at < CURRENT_VERSION; at += 1) {
    const migration = migrations.find((candidate) => candidate.from === at);
    if (migration === undefined) {
      return {
        ok: false,
        problem: `The project, version: there never was a file version ${version}. Set it to ${CURRENT_VERSION}.`,
      };
    }
    current = { ...migration.step(current), version: at + 1 };
  }
  const notes =
    version === CURRENT_VERSION
      ? []
      : [`The file was of version ${version}; it was read as version ${CURRENT_VERSION}.`];
  return { ok: true, document: current, notes };
}
