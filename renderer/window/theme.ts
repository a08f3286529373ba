/** Puts the theme and the wish for no movement on the page's root, where the tokens of tokens.css look for them. */
import type { Shell } from "./shell.ts";

export function followTheme(shell: Shell): void {
  const dark = matchMedia("(prefers-color-scheme: dark)");
  const still = matchMedia("(prefers-reduced-motion: reduce)");
  const root = document.documentElement;
  const apply = (): void => {
    const { theme, motion } = shell.now.preferences;
    root.dataset["theme"] = theme === "system" ? (dark.matches ? "dark" : "light") : theme;
    root.dataset["motion"] = motion && !still.matches ? "on" : "off";
  };
  shell.api.subscribe(apply);
  dark.addEventListener("change", apply);
  still.addEventListener("change", apply);
  apply();
}
