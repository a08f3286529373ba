import { describe, expect, it } from "vitest";
import { overlap } from "../../../core/geometry/boxes.ts";
import { labelBox, labelOf } from "../../../core/layout/label.ts";
import { pinNames } from "../../../core/layout/pin-name.ts";
import { placedViews } from "../../../core/layout/placed-view.ts";
import { lineBox } from "../../../core/layout/text-line.ts";
import { KINDS } from "../../../core/parts/catalogue.ts";
import { drawing } from "../../harness/drawing.ts";

/** The texts beside each view of the one part. */
function labels(kind: string, parameters: Readonly<Record<string, string>>): Readonly<Record<string, string>> {
  const project = drawing().part("K1", kind, parameters).build();
  const views = project.sheets.flatMap((sheet) => placedViews(project, sheet.id));
  return Object.fromEntries(
    views.map((placed) => [
      placed.view.id,
      labelOf(placed)
        .map((line) => line.text)
        .join(" / "),
    ]),
  );
}

describe("what is written beside a view", () => {
  it("names the coil's voltage at the coil and the contact's ratings at the contact", () => {
    expect(labels("relay", { coilVoltage: "12 V", contactVoltage: "150 V", contactCurrent: "10 A" })).toEqual({
      coil: "K1 / 12 V",
      contact: "K1 / 150 V  10 A",
    });
    expect(labels("contactor", { coilVoltage: "48 V", contactVoltage: "80 V", currentContinuous: "200 A" })).toEqual({
      contact: "K1 / 200 A  80 V",
      coil: "K1 / 48 V",
      aux: "K1",
    });
  });

  it("names everything at a part drawn in one view", () => {
    expect(labels("fuse", { rating: "10 A", voltageDc: "32 V" })).toEqual({ fuse: "K1 / 10 A  32 V" });
  });

  it.each([...KINDS.keys()])("stands clear of the names at the pins: %s", (kind) => {
    const rated = Object.fromEntries(
      Object.entries(KINDS.get(kind)?.parameters ?? {}).flatMap(([name, spec]) =>
        "dimension" in spec && ["voltage", "current"].includes(spec.dimension)
          ? [[name, spec.dimension === "voltage" ? "150 V" : "400 A"]]
          : [],
      ),
    );
    const project = drawing().part("K10", kind, rated).build();
    for (const placed of project.sheets.flatMap((sheet) => placedViews(project, sheet.id))) {
      const label = labelBox(labelOf(placed));
      for (const name of pinNames(placed))
        expect(label !== undefined && overlap(label, lineBox(name)), `${placed.view.id} ${name.text}`).toBe(false);
    }
  });
});
