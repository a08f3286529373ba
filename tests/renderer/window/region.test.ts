/** A region that breaks off says so in its place, and can be shown again. */
import { createElement } from "react";
import { renderToStaticMarkup } from "react-dom/server";
import { describe, expect, it } from "vitest";
import { Region } from "../../../renderer/window/Region.tsx";

describe("a region", () => {
  const region = new Region({ name: "The table", children: createElement("p", null, "rows") });
  const shown = (): string => renderToStaticMarkup(createElement("div", null, region.render()));

  it("shows what stands in it", () => {
    expect(shown()).toBe("<div><p>rows</p></div>");
  });

  it("that broke off names itself and what happened, and offers to be shown again", () => {
    Object.assign(region, { state: Region.getDerivedStateFromError(new Error("no rows")) });
    expect(shown()).toContain("The table broke off (no rows). The drawing is untouched");
    expect(shown()).toContain("Show it again");
    expect(shown()).not.toContain("<p>rows</p>");
    Object.assign(region, { state: Region.getDerivedStateFromError("out of room") });
    expect(shown()).toContain("(out of room)");
    Object.assign(region, { state: { broken: null } });
    expect(shown()).toContain("<p>rows</p>");
  });
});
