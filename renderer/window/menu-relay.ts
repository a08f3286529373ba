/**
 * One way for menu actions, wherever they come from: the system's menu, a shortcut or the command field. Components
 * listen through `host.onMenu` as ever (the sheet to zooming, for one) and hear all three.
 */
import type { Host, MenuAction } from "../../core/host/host.ts";

/** What the sheet itself carries out; everything else has one keeper, the window. */
const OF_THE_SHEET: readonly MenuAction[] = ["zoom-in", "zoom-out", "zoom-whole"];

export class MenuRelay {
  readonly host: Host;
  readonly #listeners = new Set<(action: MenuAction) => void>();
  readonly #system: Host;

  constructor(system: Host) {
    this.#system = system;
    this.host = {
      ...system,
      onMenu: (listener) => {
        this.#listeners.add(listener);
        return () => this.#listeners.delete(listener);
      },
    };
  }

  send(action: MenuAction): void {
    for (const listener of this.#listeners) listener(action);
  }

  /** `keeper` carries out what the system's menu asks for, save what is the sheet's own. */
  serve(keeper: (action: MenuAction) => void): () => void {
    return this.#system.onMenu((action) => (OF_THE_SHEET.includes(action) ? this.send(action) : keeper(action)));
  }
}
