/** The desktop's host: what the preload exposes has the shape of Host already. */
import type { Host } from "../../core/host/host.ts";

declare global {
  interface Window {
    readonly loomwright?: Host;
  }
}

/** undefined when the window runs in a browser. */
export const desktopHost = (): Host | undefined => window.loomwright;
