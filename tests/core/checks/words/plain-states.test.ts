import { expect, test } from "vitest";
import { plainStates } from "../../../../core/checks/words/plain-states.ts";

test("a state with a control moved gives way to the plain one", () => {
  expect(plainStates(["parked", "driving", "parked with S1 on", "driving while plugged in"])).toEqual([
    "parked",
    "driving",
  ]);
});

test("what occurs only with a control moved keeps its name", () => {
  expect(plainStates(["driving", "parked with S1 on", "parked with S2 b"])).toEqual([
    "driving",
    "parked with S1 on",
    "parked with S2 b",
  ]);
});

test("one name is told once, and a name that begins alike is another state", () => {
  expect(plainStates(["driving", "driving-low", "driving"])).toEqual(["driving", "driving-low"]);
});
