/**
 * Which folder may import which. The folders of core stand in one line and each imports only those before it:
 * project -> network -> solved states -> findings -> pages, so a change never runs backwards.
 */
export const CORE_ORDER = [
  "quantity",
  "geometry",
  "standards",
  "parts",
  "project",
  "network",
  "layout",
  "circuit",
  "studies",
  "checks",
  "drawing",
  "documents",
  "exchange",
  "starter",
];

const CORE_PACKAGES = ["immer", "zod", "mathjs"];

/** @param {readonly string[]} folders */
const within = (folders) => `^core/(${folders.join("|")})/`;

/** @type {import("dependency-cruiser").IForbiddenRuleType[]} */
export const RULES = [
  ...CORE_ORDER.slice(0, -1).map((folder, index) => ({
    name: `${folder}-imports-only-what-stands-before-it`,
    severity: /** @type {const} */ ("error"),
    from: { path: within([folder]) },
    to: { path: within(CORE_ORDER.slice(index + 1)) },
  })),
  {
    name: "host-holds-types-only",
    severity: "error",
    from: { path: "^core/host/" },
    to: { path: "^core/(?!host/)", dependencyTypesNot: ["type-only"] },
  },
  {
    name: "core-knows-no-program",
    severity: "error",
    from: { path: "^core/" },
    to: { path: "^(electron|renderer|tests|demo-projects)/" },
  },
  { name: "core-uses-no-built-in", severity: "error", from: { path: "^core/" }, to: { dependencyTypes: ["core"] } },
  {
    name: "core-packages",
    severity: "error",
    from: { path: "^core/" },
    to: { path: "node_modules/", pathNot: `node_modules/(${CORE_PACKAGES.join("|")})/` },
  },
  { name: "electron-not-renderer", severity: "error", from: { path: "^electron/" }, to: { path: "^renderer/" } },
  { name: "renderer-not-electron", severity: "error", from: { path: "^renderer/" }, to: { path: "^electron/" } },
  {
    // The frame places the regions; a region that reached for the frame, a host or a dialog could stand nowhere else.
    name: "region-knows-no-frame",
    severity: "error",
    from: { path: "^renderer/(draw|check|energise|controls)/" },
    to: { path: "^renderer/(main\\.|window/(Frame|start-editor|host-|browser/|dialogs/))" },
  },
  {
    name: "controls-know-no-region",
    severity: "error",
    from: { path: "^renderer/controls/" },
    to: { path: "^renderer/(draw|check|energise)/" },
  },
  {
    // The worker solves and checks; it has no page to draw on.
    name: "analysis-draws-nothing",
    severity: "error",
    from: { path: "^renderer/window/analysis/" },
    to: { path: "(^renderer/(?!window/analysis/)|node_modules/(react|react-dom|@xyflow|zustand)/)" },
  },
  {
    name: "renderer-uses-no-built-in",
    severity: "error",
    from: { path: "^renderer/" },
    to: { dependencyTypes: ["core"] },
  },
  {
    name: "nothing-imports-tests",
    severity: "error",
    from: { path: "^(electron|renderer)/" },
    to: { path: "^tests/" },
  },
  { name: "no-cycle", severity: "error", from: {}, to: { circular: true } },
  { name: "resolvable", severity: "error", from: {}, to: { couldNotResolve: true } },
];
