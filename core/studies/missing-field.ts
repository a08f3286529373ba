/** A field that someone can fill in: what a study or a check names where it cannot decide. */
export type MissingField =
  | { readonly part: string; readonly parameter: string }
  | { readonly wire: string; readonly field: string }
  | { readonly enclosure: string; readonly field: string }
  | { readonly zone: string; readonly field: string }
  | { readonly title: string };
