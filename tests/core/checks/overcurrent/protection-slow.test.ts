/**
 * IEC 60364-5-54: S = sqrt(I2 t)/k, k = 115 for copper in PVC of 70 C (seen). Some 290 A through 1 mm2: (115/290)2 = 0.157 s.
 * ISO 8820-5 (memory): a bolted strip opens no sooner than 0.3 s at 350 %, a blade (ISO 8820-3) within 0.5 s at 350 %
 * and 0.1 s at 600 %.
 */
import { expect, test } from "vitest";
import { protectionSlow } from "../../../../core/checks/overcurrent/protection-slow.ts";
import { runCheck } from "../../../../core/checks/run.ts";
import { analyse } from "../../../../core/circuit/analyse.ts";
import { checkTable } from "../../../harness/check-table.ts";
import { drawing } from "../../../harness/drawing.ts";
import { cart } from "./cart.ts";
import { fusedLamp, PVC } from "./fused-lamp.ts";

const STRIP = { curve: "bolted-strip", rating: "100 A" };
const BLADE = { curve: "blade", rating: "15 A" };

checkTable(protectionSlow, {
  fails: [
    {
      name: "a strip of 100 A before 1 mm2: 0.3 s at the soonest",
      drawing: fusedLamp({ fuse: STRIP }),
      at: "F1",
      message: "slow",
      severity: "WARNING",
      remedies: ["thicker-wire"],
    },
    {
      name: "a curve as slow as a main fuse's before 0.75 mm2",
      drawing: fusedLamp({
        fuse: { curve: "blade", rating: "20 A", curvePoints: "2:100 s; 5:10 s; 10:3 s; 20:1 s" },
        wire: { size: "0.75 mm2" },
      }),
      at: "F1",
      message: "slow",
      severity: "WARNING",
    },
    {
      name: "a main fuse that takes the short circuit for a load",
      drawing: fusedLamp({ fuse: { curve: "bolted-strip", rating: "400 A" } }),
      at: "F1",
      message: "never",
      severity: "WARNING",
    },
    {
      name: "on the cart a strip in the place of the control fuse, behind a long way of 18 AWG",
      drawing: cart({
        parts: { F2: { rating: "100 A", curve: "bolted-strip" } },
        wires: { "F2:2 - S1:battery": { size: "18 AWG" }, "S1:ignition - T1:logic+": { size: "18 AWG" } },
      }).build(),
      at: "F2",
      message: "slow",
      severity: "WARNING",
      remedies: ["thicker-wire"],
      except: {
        contact: "So many contacts in the pack's own loop weaken the short circuit that the main fuse has to clear.",
      },
    },
  ],
  passes: [
    { name: "a blade of 15 A before 1 mm2", drawing: fusedLamp({ fuse: BLADE }), at: ["W2", "W3"] },
    {
      name: "a strip before wire of its own kind",
      drawing: fusedLamp({ fuse: STRIP, wire: { size: "16 mm2" } }),
      at: ["W1", "W2", "W3"],
    },
    {
      name: "a fast curve before 0.5 mm2",
      drawing: fusedLamp({
        fuse: { rating: "5 A", curvePoints: "2:1 s; 5:0.05 s; 10:0.01 s; 40:0.002 s" },
        wire: { size: "0.5 mm2" },
      }),
      at: "W2",
    },
  ],
  notChecked: [
    {
      name: "a fuse of unknown class and curve",
      drawing: fusedLamp({ fuse: { rating: "15 A" } }),
      at: ["W1", "W2", "W3"],
      reason: "curve",
      missing: ["F1.curvePoints"],
    },
    {
      name: "a fuse of unknown rating",
      drawing: fusedLamp({ fuse: { curve: "blade" } }),
      at: ["W1", "W2", "W3"],
      reason: "curve",
      missing: ["F1.rating"],
    },
    {
      name: "the class alone does not tell: a strip between 0.1 s and 1 s",
      drawing: fusedLamp({ fuse: { curve: "bolted-strip", rating: "40 A" }, wire: { size: "1.5 mm2" } }),
      at: ["W2", "W3"],
      reason: "curve",
      missing: ["F1.curvePoints"],
    },
    {
      name: "a curve of two points, between which it clears sooner or later than the wire's 0.157 s",
      drawing: fusedLamp({ fuse: { ...STRIP, curvePoints: "2:5 s; 3.5:0.02 s" } }),
      at: ["W2", "W3"],
      reason: "close",
      missing: [],
    },
    {
      name: "no size",
      drawing: fusedLamp({ fuse: BLADE, wire: { size: null } }),
      at: ["W2", "W3"],
      reason: "size",
      missing: ["W2.size", "W3.size"],
    },
    {
      name: "no length",
      drawing: fusedLamp({ fuse: BLADE, wire: { length: null } }),
      at: ["W1", "W2", "W3"],
      reason: "approximate",
      missing: ["W2.length", "W3.length"],
    },
  ],
  doesNotApply: [
    {
      name: "no fuse anywhere",
      drawing: drawing()
        .part("G20", "battery-block", { duty: "auxiliary", chemistry: "agm-lead", resistance: "5 mohm" })
        .part("P1", "lamp", { voltage: "12 V", power: "21 W" })
        .wires(PVC, "G20:+ - P1:+", "P1:- - G20:-")
        .build(),
    },
  ],
});

test("the wire stands (k S/I)2, by hand", () => {
  const [failure] = runCheck(protectionSlow, analyse(fusedLamp({ fuse: STRIP }))).failures;
  const fact = failure?.facts["current"];
  const current = typeof fact === "object" && "value" in fact ? fact.value : 0;
  expect(current).toBeGreaterThan(200);
  expect(failure?.limit).toBeCloseTo((115 / current) ** 2, 2);
});
