import { expect, test } from "vitest";
import { colourCode } from "../../../core/project/colour.ts";

// IEC 60757: letter codes, joined in the order of its table (its own example: red + blue = RDBU); green-and-yellow is GNYE.
test.each([
  ["OG", "OG"],
  ["og", "OG"],
  ["Orange", "OG"],
  [" red ", "RD"],
  ["BURD", "RDBU"],
  ["red/blue", "RDBU"],
  ["green-yellow", "GNYE"],
  ["yellow and green", "GNYE"],
  ["GN-YE", "GNYE"],
  ["gray", "GY"],
  ["black white red", "BKRDWH"],
  ["mauve", undefined],
  ["RDRD", undefined],
  ["RDX", undefined],
  ["", undefined],
])("%s is %s", (typed, code) => expect(colourCode(typed)).toBe(code));
