import { describe, expect, it } from "vitest";
import { labelOf } from "../../../core/layout/label.ts";
import { placedViews } from "../../../core/layout/placed-view.ts";
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
});
