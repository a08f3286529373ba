import { defineCommand, draftPart } from "./define.ts";

/** Takes a view off its sheet; the part stays in the drawing and is listed as unplaced. */
export const unplaceView = defineCommand<{ readonly part: string; readonly view: string }>({
  id: "unplace-view",
  label: ({ part }, before) => `Take ${before.parts.find(({ id }) => id === part)?.designation ?? ""} off its sheet`,
  change(draft, given, { before }) {
    const part = draftPart(draft, given.part, before);
    part.views = part.views.filter(({ view }) => view !== given.view);
  },
});
