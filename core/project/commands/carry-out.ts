import type { Patch } from "immer";
import { defineCommand, Refused } from "./define.ts";

interface CarryOut {
  /** What it does, as its button says it. */
  readonly label: string;
  readonly patches: readonly Patch[];
}

type Node = Record<PropertyKey, unknown>;

/** Carries out an edit that was worked out elsewhere (the remedy of a finding) on the document that it was worked out for. */
export const carryOut = defineCommand<CarryOut>({
  id: "carry-out",
  label: ({ label }) => label,
  change(draft, { patches }) {
    for (const { op, path, value } of patches) {
      let node = draft as unknown as Node;
      for (const key of path.slice(0, -1)) {
        const child = node[key];
        if (typeof child !== "object" || child === null)
          throw new Refused("What this edit is about is no longer there. Choose it again.");
        node = child as Node;
      }
      const key = path.at(-1) ?? "";
      if (Array.isArray(node)) {
        if (op === "replace") (node as unknown as unknown[])[Number(key)] = value;
        else
          (node as unknown as unknown[]).splice(Number(key), op === "remove" ? 1 : 0, ...(op === "add" ? [value] : []));
      } else if (op === "remove") delete node[key];
      else node[key] = value;
    }
  },
});
