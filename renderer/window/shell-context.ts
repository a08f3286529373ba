/** How components reach the window's own state and its actions. */
import { createContext, useContext } from "react";
import { useStore } from "zustand";
import type { Action } from "./actions.ts";
import type { Files } from "./files.ts";
import type { Preferences } from "./preferences.ts";
import type { Shell, ShellState } from "./shell.ts";

export interface ShellParts {
  readonly shell: Shell;
  readonly files: Files;
  readonly actions: readonly Action[];
}

export const ShellContext = createContext<ShellParts | null>(null);

export function useShellParts(): ShellParts {
  const parts = useContext(ShellContext);
  if (parts === null) throw new Error("A component stands outside the window's frame.");
  return parts;
}

export function useShell<Slice>(select: (state: ShellState) => Slice): Slice {
  return useStore(useShellParts().shell.api, select);
}

export const usePreferences = (): Preferences => useShell(({ preferences }) => preferences);
