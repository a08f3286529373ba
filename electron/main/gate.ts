/**
 * The one way in from the page: every message is looked at for who sent it and what it carries before anything is done.
 * A page that is not ours, a frame within ours or an argument of another shape gets nowhere.
 */
import type { IpcMainEvent, IpcMainInvokeEvent, WebContents } from "electron";
import { FileProblem } from "../files/file-problem.ts";
import type { Answer } from "./channels.ts";
import type { ElectronApi } from "./electron-api.ts";
import { isOurs } from "./page-address.ts";

/** What one argument must be; its name is for the person who reads the log of a page that went wrong. */
export interface Shape<Value> {
  readonly name: string;
  readonly fits: (value: unknown) => value is Value;
}

type Values<Shapes extends readonly Shape<unknown>[]> = {
  readonly [Index in keyof Shapes]: Shapes[Index] extends Shape<infer Value> ? Value : never;
};

export class Gate {
  readonly #ipc: ElectronApi["ipcMain"];
  readonly #page: () => WebContents | undefined;

  constructor(ipc: ElectronApi["ipcMain"], page: () => WebContents | undefined) {
    this.#ipc = ipc;
    this.#page = page;
  }

  /** Answers a question of the page. What a person can mend comes back as a sentence. */
  answer<const Shapes extends readonly Shape<unknown>[]>(
    channel: string,
    shapes: Shapes,
    work: (...values: Values<Shapes>) => Promise<unknown>,
  ): void {
    this.#ipc.handle(channel, async (event: IpcMainInvokeEvent, ...given: unknown[]): Promise<Answer> => {
      if (!this.#trusts(event)) throw new Error(`${channel}: only the window itself may ask`);
      const values = fitting(shapes, given);
      if (values === undefined) throw new Error(`${channel}: takes ${shapes.map(({ name }) => name).join(", ")}`);
      try {
        return { ok: true, value: await work(...values) };
      } catch (cause) {
        if (cause instanceof FileProblem) return { ok: false, text: cause.message };
        throw cause;
      }
    });
  }

  /** Hears what the page says; what does not fit is passed over. */
  hear<const Shapes extends readonly Shape<unknown>[]>(
    channel: string,
    shapes: Shapes,
    work: (...values: Values<Shapes>) => void,
  ): void {
    this.#ipc.on(channel, (event: IpcMainEvent, ...given: unknown[]) => {
      const values = this.#trusts(event) ? fitting(shapes, given) : undefined;
      if (values !== undefined) work(...values);
    });
  }

  #trusts({ sender, senderFrame }: IpcMainEvent | IpcMainInvokeEvent): boolean {
    // The frame is null once it has gone elsewhere or was closed.
    if (senderFrame === null || senderFrame.parent !== null || sender !== this.#page()) return false;
    return isOurs(senderFrame.url);
  }
}

function fitting<const Shapes extends readonly Shape<unknown>[]>(
  shapes: Shapes,
  given: readonly unknown[],
): Values<Shapes> | undefined {
  const fits = given.length === shapes.length && shapes.every((shape, index) => shape.fits(given[index]));
  return fits ? (given as unknown as Values<Shapes>) : undefined;
}
