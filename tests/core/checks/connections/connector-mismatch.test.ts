import { connectorMismatch } from "../../../../core/checks/connections/connector-mismatch.ts";
import { checkTable } from "../../../harness/check-table.ts";
import { drawing } from "../../../harness/drawing.ts";

/** Two lamps behind a plug: feeds on the a half, lamps on the b half, in the positions given. */
const harness = (feeds: readonly (number | null)[], lamps: readonly (number | null)[]) => {
  const sketch = drawing()
    .part("G20", "battery-block", { chemistry: "agm-lead" })
    .part("S1", "switch")
    .part("S2", "switch")
    .part("P1", "lamp")
    .part("P2", "lamp")
    .part("X2", "connector", { positions: "4", keyed: "yes" })
    .wires({}, "G20:+ - S1:common", "G20:+ - S2:common", "P1:- - G20:-", "P2:- - G20:-");
  feeds.forEach((pin, index) => pin !== null && sketch.wire(`S${index + 1}:out`, `X2:${pin}a`));
  lamps.forEach((pin, index) => pin !== null && sketch.wire(`X2:${pin}b`, `P${index + 1}:+`));
  return sketch;
};

checkTable(connectorMismatch, {
  fails: [
    {
      name: "one position out",
      drawing: harness([1, 2], [1, 3]).build(),
      at: "X2:2a",
      message: "positions",
      severity: "WARNING",
    },
    {
      name: "nothing comes out of position 2",
      drawing: harness([1, 2], [1, null]).build(),
      at: "X2:2a",
      message: "positions",
      severity: "WARNING",
    },
    {
      name: "nothing goes into position 4",
      drawing: harness([1, null], [1, 4]).build(),
      at: "X2:4b",
      message: "positions",
      severity: "WARNING",
    },
    {
      name: "two wires swapped, seen by the names of their nets",
      drawing: harness([1, 2], [2, 1])
        .netName("S1:out", "head lamp feed")
        .netName("S2:out", "horn feed")
        .netName("P1:+", "head lamp feed")
        .netName("P2:+", "horn feed")
        .build(),
      at: ["X2:1a", "X2:2a"],
      message: "nets",
      severity: "WARNING",
    },
  ],
  passes: [
    { name: "straight through", drawing: harness([1, 2], [1, 2]).build(), at: ["X2:1a", "X2:2b"] },
    {
      name: "named alike on both sides",
      drawing: harness([1, 2], [1, 2]).netName("S1:out", "head lamp feed").netName("P1:+", "head lamp feed").build(),
    },
    {
      name: "named on one side",
      drawing: harness([3, 4], [3, 4]).netName("S1:out", "head lamp feed").netName("P2:+", "horn feed").build(),
    },
    {
      name: "two nets crossed on purpose and named by where they come from",
      drawing: harness([1, 2], [2, 1]).netName("S1:out", "first").netName("S2:out", "second").build(),
    },
  ],
  doesNotApply: [
    { name: "a socket with nothing plugged in", drawing: harness([1, 2], [null, null]).build() },
    { name: "no connector", drawing: drawing().part("P1", "lamp").build() },
  ],
});
