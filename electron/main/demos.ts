/** The demos that come with the program: the files of their folder. */
import * as fs from "node:fs/promises";
import * as path from "node:path";
import type { OpenedFile } from "../../core/host/host.ts";
import type { TitleBlock } from "../../core/project/document.ts";
import { drawingName } from "../../core/project/drawing-name.ts";

export interface Demo {
  readonly id: string;
  readonly title: string;
}

interface Titled {
  readonly title?: TitleBlock;
}

const ENDING = ".loomwright";

export class Demos {
  readonly #folder: string;

  constructor(folder: string) {
    this.#folder = folder;
  }

  async list(): Promise<readonly Demo[]> {
    const names = (await fs.readdir(this.#folder)).filter((name) => name.endsWith(ENDING)).sort();
    return Promise.all(
      names.map(async (name) => {
        const id = name.slice(0, -ENDING.length);
        // The demos are ours, so their text needs no proof.
        const { title = {} } = JSON.parse(await fs.readFile(path.join(this.#folder, name), "utf8")) as Titled;
        return { id, title: drawingName(title) ?? id };
      }),
    );
  }

  /** A demo has no file to be saved to. null for an id that is in no list. */
  async open(id: string): Promise<OpenedFile | null> {
    const demo = (await this.list()).find((each) => each.id === id);
    if (demo === undefined) return null;
    const name = `${demo.id}.loomwright`;
    return { file: null, name, bytes: new Uint8Array(await fs.readFile(path.join(this.#folder, name))) };
  }
}
