/** Where on the drawing: ids only. Designations are looked up when a text is made. */
export type Place =
  | { readonly part: string; readonly terminal?: string }
  | { readonly wire: string }
  | { readonly sheet: string };
