/** A button as the regions use it: a verb with its object, or a link to a place within a sentence. */
import type { ComponentProps } from "react";
import "./controls.css";

interface ButtonProps extends Omit<ComponentProps<"button">, "type" | "className"> {
  /** main: what most people want here; link: leads to a place, in running text; quiet: the rest. */
  readonly look?: "main" | "quiet" | "link";
}

export function Button({ look = "quiet", ...given }: ButtonProps) {
  return <button type="button" className={`button button-${look}`} {...given} />;
}
