/** What the title block calls a drawing. */
import type { TitleBlock } from "./document.ts";

/** "Farm pickup, 96 V: Traction, control and 12 V"; undefined where the title block says nothing. */
export function drawingName({ vehicle, title }: Pick<TitleBlock, "vehicle" | "title">): string | undefined {
  const name = [vehicle, title].filter((each) => each !== undefined).join(": ");
  return name === "" ? undefined : name;
}
