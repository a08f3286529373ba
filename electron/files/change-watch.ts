/**
 * Notices when somebody else changes the opened file. It is looked at every other second: that also works on network
 * shares and for programs that replace a file instead of writing into it.
 */
import type { FileTokens } from "./file-tokens.ts";

const INTERVAL_MS = 2000;

export class ChangeWatch {
  readonly #tokens: FileTokens;
  readonly #tell: (token: string) => void;
  #token: string | undefined;
  /** The state of the file that has been looked into already. */
  #seen = "";
  #looking = false;
  #timer: ReturnType<typeof setInterval> | undefined;

  constructor(tokens: FileTokens, tell: (token: string) => void) {
    this.#tokens = tokens;
    this.#tell = tell;
  }

  /** Watches this file from now on, and no other. */
  turnTo(token: string): void {
    this.#token = token;
    this.#seen = "";
    if (this.#timer !== undefined) return;
    this.#timer = setInterval(() => void this.look(), INTERVAL_MS);
    this.#timer.unref();
  }

  stop(): void {
    clearInterval(this.#timer);
    this.#timer = undefined;
    this.#token = undefined;
  }

  /** Looks once; each change is told of once. */
  async look(): Promise<void> {
    const token = this.#token;
    if (token === undefined || this.#looking) return;
    this.#looking = true;
    try {
      const now = await this.#tokens.glance(token);
      if (now === undefined || now.known || now.mark === this.#seen) return;
      this.#seen = now.mark;
      // What cannot be read just now is told of when the person opens or saves it.
      const changed = await this.#tokens.changed(token).catch(() => false);
      if (changed && token === this.#token) this.#tell(token);
    } finally {
      this.#looking = false;
    }
  }
}
