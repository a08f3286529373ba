/**
 * The state of the window itself, as apart from the drawing's: which dialog is open, what the person prefers, which
 * files and demos can be reached. A dialog is a question that ends in an answer; one stands at a time, the next waits.
 */
import { createStore } from "zustand/vanilla";
import type { StoreApi } from "zustand/vanilla";
import type { FileRef, Host, Recovery } from "../../core/host/host.ts";
import { DEFAULTS, readPreferences, writePreferences } from "./preferences.ts";
import type { Preferences } from "./preferences.ts";

export interface Choice {
  readonly id: string;
  /** A verb with its object. */
  readonly label: string;
}

export type Dialog =
  | { readonly kind: "about" | "licences" | "preferences" | "open-demo" | "open-recent" }
  | { readonly kind: "cautions"; readonly first: boolean }
  /** The page of one check, or the list of all. */
  | { readonly kind: "checks"; readonly check?: string }
  | { readonly kind: "unreadable"; readonly name: string; readonly problems: readonly string[] }
  | { readonly kind: "question"; readonly title: string; readonly text: string; readonly choices: readonly Choice[] }
  | { readonly kind: "recovery"; readonly recovery: Recovery };

export interface Demo {
  readonly id: string;
  readonly title: string;
}

export interface ShellState {
  readonly dialog: Dialog | null;
  readonly preferences: Preferences;
  readonly recent: readonly FileRef[];
  readonly demos: readonly Demo[];
  /** The first drawing stands in the window. */
  readonly ready: boolean;
  /** The outline stands beside the sheet. */
  readonly outline: boolean;
}

/** The answer of a dialog that was closed without choosing. */
export const CLOSED = "";

export class Shell {
  readonly api: StoreApi<ShellState>;
  readonly #host: Host;
  #line: Promise<unknown> = Promise.resolve();
  #answer: ((answer: string) => void) | undefined;

  constructor(host: Host) {
    this.#host = host;
    this.api = createStore<ShellState>(() => ({
      dialog: null,
      preferences: DEFAULTS,
      recent: [],
      demos: [],
      ready: false,
      outline: false,
    }));
  }

  get now(): ShellState {
    return this.api.getState();
  }

  /** Opens the dialog as soon as no other stands, and waits for its answer; CLOSED when the person left it. */
  ask(dialog: Dialog): Promise<string> {
    const asked = this.#line.then(
      () =>
        new Promise<string>((resolve) => {
          this.#answer = resolve;
          this.api.setState({ dialog });
        }),
    );
    this.#line = asked;
    return asked;
  }

  answer(answer: string): void {
    const resolve = this.#answer;
    this.#answer = undefined;
    this.api.setState({ dialog: null });
    resolve?.(answer);
  }

  async loadPreferences(): Promise<void> {
    const kept = await this.#host.loadPreferences().catch(() => null);
    this.api.setState({ preferences: readPreferences(kept) });
  }

  prefer(change: Partial<Preferences>): void {
    const preferences = { ...this.now.preferences, ...change };
    this.api.setState({ preferences });
    // What cannot be kept holds for this window all the same.
    this.#host.savePreferences(writePreferences(preferences)).catch(() => undefined);
  }

  begun(): void {
    this.api.setState({ ready: true });
  }

  toggleOutline(): void {
    this.api.setState(({ outline }) => ({ outline: !outline }));
  }

  /** Each list for itself: where the host cannot give one (a browser that keeps nothing), the other is still good. */
  async refreshFiles(): Promise<void> {
    const [recent, demos] = await Promise.all([
      this.#host.recentFiles().catch(() => []),
      this.#host.demos().catch(() => []),
    ]);
    this.api.setState({ recent, demos });
  }
}
