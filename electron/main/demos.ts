/** The demos that come with the program; their list is made when the program is built. */
import * as fs from "node:fs/promises";
import * as path from "node:path";
import type { OpenedFile } from "../../core/host/host.ts";

export interface Demo {
  readonly id: string;
  readonly title: string;
}

export class Demos {
  readonly #folder: string;

  constructor(folder: string) {
    this.#folder = folder;
  }

  async list(): Promise<readonly Demo[]> {
    return JSON.parse(await fs.readFile(path.join(this.#folder, "demos.json"), "utf8")) as readonly Demo[];
  }

  /** A demo has no file to be saved to. null for an id that is in no list. */
  async open(id: string): Promise<OpenedFile | null> {
    const demo = (await this.list()).find((each) => each.id === id);
    if (demo === undefined) return null;
    const name = `${demo.id}.loomwright`;
    return { file: null, name, bytes: new Uint8Array(await fs.readFile(path.join(this.#folder, name))) };
  }
}
