/**
 * Keeps the window from closing over unsaved work: it asks at that moment, in a dialog of the system. A page may not hold
 * up closing by itself: in Electron that would fail without a word.
 */

export interface CloseQuestion {
  /** Asks the person and waits. */
  ask(): "save" | "discard" | "keep";
  /** Tells the page to save. */
  save(): void;
  /** Drops what was set aside of this window's work: it is saved, or given up. */
  forget(): Promise<void>;
  close(): void;
  quit(): void;
}

export class CloseGuard {
  readonly #question: CloseQuestion;
  #dirty = false;
  #quitting = false;
  #systemEnds = false;
  /** What to do once the page has saved. */
  #then: (() => void) | undefined;

  constructor(question: CloseQuestion) {
    this.#question = question;
  }

  /** A freshly loaded page has nothing unsaved yet. */
  begun(): void {
    this.#dirty = false;
    this.#then = undefined;
  }

  dirty(now: boolean): void {
    this.#dirty = now;
    if (now || this.#then === undefined) return;
    this.#leave(this.#then);
  }

  quitting(): void {
    this.#quitting = true;
  }

  /** The system shuts down: there is no time for questions; what was set aside is offered next time. */
  systemEnds(): void {
    this.#systemEnds = true;
  }

  /** The person changed their mind while saving, or it could not be saved: the window stays. */
  notSaved(): void {
    this.#then = undefined;
    this.#quitting = false;
  }

  /** Whether the window may close now. */
  mayClose(): boolean {
    if (!this.#dirty || this.#systemEnds) return true;
    const answer = this.#question.ask();
    const goOn = this.#quitting ? () => this.#question.quit() : () => this.#question.close();
    this.#quitting = false;
    if (answer === "discard") this.#leave(goOn);
    if (answer === "save") {
      this.#then = goOn;
      this.#question.save();
    }
    return false;
  }

  #leave(goOn: () => void): void {
    this.#dirty = false;
    this.#then = undefined;
    void this.#question.forget().finally(goOn);
  }
}
