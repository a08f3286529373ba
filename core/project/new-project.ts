/** A project with nothing in it but one sheet of A3, the smallest paper on which a whole vehicle can be read. */
import type { Project } from "./document.ts";

export function newProject(): Project {
  return {
    format: "loomwright-project",
    version: 1,
    title: {},
    sheets: [{ id: "s1", name: "1", paper: "A3", orientation: "landscape" }],
    zones: [],
    enclosures: [],
    cables: [],
    parts: [],
    wires: [],
    netNames: [],
    states: [],
    accepted: [],
    readings: [],
    progress: [],
    revisions: [],
    presets: [],
    lastIds: { p: 0, w: 0, s: 1, c: 0, z: 0, e: 0 },
  };
}
