/**
 * Where a figure comes from and how well it is known. "seen": read in a published text; "memory": recalled from the
 * named one, which was not at hand; "calc": follows from a formula that names its own source; "none": common
 * practice of the trade, no source. What is from memory is shown as such wherever the figure is shown.
 */
export interface Source {
  readonly text: string;
  readonly known: "seen" | "memory" | "calc" | "none";
}
