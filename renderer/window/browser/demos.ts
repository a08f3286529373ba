/** The demo vehicles, bundled: each its own file beside the program, fetched when it is opened. */

import type { TitleBlock } from "../../../core/project/document.ts";
import { drawingName } from "../../../core/project/drawing-name.ts";

const LOADERS = import.meta.glob<string>("../../../demo-projects/*/*.loomwright", { query: "?raw", import: "default" });

const idOf = (address: string): string => (address.split("/").at(-1) ?? "").replace(/\.loomwright$/, "");

export interface BundledDemo {
  readonly id: string;
  readonly fileName: string;
  readonly text: () => Promise<string>;
}

export const DEMOS: readonly BundledDemo[] = Object.entries(LOADERS)
  .map(([address, text]) => ({ id: idOf(address), fileName: `${idOf(address)}.loomwright`, text }))
  .sort((a, b) => (a.id < b.id ? -1 : 1));

/** The name in the title block, else the file's; the demos are ours, so their text needs no proof. */
export async function demoTitle({ id, text }: BundledDemo): Promise<string> {
  const { title = {} } = JSON.parse(await text()) as { readonly title?: TitleBlock };
  return drawingName(title) ?? id;
}
