import { contactCurrentLow } from "../../../../core/checks/switching/contact-current-low.ts";
import type { Parameters } from "../../../../core/project/document.ts";
import { checkTable } from "../../../harness/check-table.ts";
import { drawing } from "../../../harness/drawing.ts";
import { cart, THICK } from "../overcurrent/cart.ts";

const WIRE = { size: "4 mm2", length: "0.3 m", insulation: { material: "PVC", volts: "60 V", temperature: "105 C" } };

/** A lamp or heater of so many watts at about 12.8 V behind a key switch. */
const keyed = (key: Parameters, load: Parameters) =>
  drawing()
    .part("G20", "battery-block", { duty: "auxiliary", chemistry: "agm-lead", cells: "6", resistance: "2 mohm" })
    .part("S1", "key-switch", key)
    .part("E1", "lamp", { voltage: "12.8 V", ...load })
    .wires(WIRE, "G20:+ - S1:battery", "S1:ignition - E1:+", "E1:- - G20:-")
    .build();

/** The cart's motor with a changeover switch that turns its field round. */
const turned = (rating: string | null, controller: Parameters = { motorCurrentMax: "400 A" }) =>
  cart({
    parts: { T1: controller, Q1: { currentContinuous: "200 A" } },
    without: ["M1:A2 - M1:S1", "M1:S2 - T1:M-"],
    more: (made) => {
      made
        .part("S2x", "selector-switch", { contactCurrent: rating })
        .part("S3x", "selector-switch", { contactCurrent: rating })
        .wires(
          THICK,
          "M1:A2 - S3x:common",
          "S2x:common - T1:M-",
          "S3x:a - M1:S1",
          "S2x:b - M1:S1",
          "S3x:b - M1:S2",
          "S2x:a - M1:S2",
        );
    },
  }).build();

const KEYED_CART = {
  S1: { contactCurrent: "10 A" },
  S2: { contactCurrent: "10 A" },
  Q9: { currentContinuous: "200 A" },
};

checkTable(contactCurrentLow, {
  fails: [
    {
      name: "12 A through a key switch for 10 A",
      drawing: keyed({ contactCurrent: "10 A" }, { power: "154 W" }),
      at: "S1",
      message: "low",
      severity: "WARNING",
      limit: 10,
      remedies: ["contact-for-current"],
    },
    {
      name: "a contactor for 100 A in a main circuit of 150 A",
      drawing: cart({ parts: { ...KEYED_CART, Q1: { currentContinuous: "100 A" } } }).build(),
      at: "Q1",
      message: "low",
      severity: "WARNING",
      remedies: [],
    },
    {
      name: "direction contacts for less than the motor's continuous current",
      drawing: turned("100 A"),
      at: ["S2x", "S3x"],
      message: "low",
      severity: "WARNING",
    },
    {
      name: "direction contacts for the continuous but not for the greatest motor current",
      drawing: turned("300 A"),
      at: ["S2x", "S3x"],
      message: "motor",
      severity: "NOTICE",
      value: 400,
      limit: 300,
    },
  ],
  passes: [
    {
      name: "a sound cart",
      drawing: cart({ parts: { ...KEYED_CART, Q1: { currentContinuous: "200 A" } } }).build(),
      at: ["Q1", "Q9", "S1", "S2"],
    },
    {
      name: "8 A through a key switch for 10 A",
      drawing: keyed({ contactCurrent: "10 A" }, { power: "102 W" }),
      at: "S1",
    },
    { name: "direction contacts for all that the motor may draw", drawing: turned("400 A"), at: ["S2x", "S3x"] },
  ],
  notChecked: [
    {
      name: "a key switch of unknown rating",
      drawing: keyed({}, { power: "60 W" }),
      at: "S1",
      reason: "rating",
      missing: ["S1.contactCurrent"],
    },
    {
      name: "a lamp of unknown power: too much at one end of what it may draw",
      drawing: keyed({ contactCurrent: "0.5 A" }, {}),
      at: "S1",
      reason: "range",
      missing: ["E1.power"],
    },
    {
      name: "a drive of unknown current",
      drawing: cart({
        parts: {
          ...KEYED_CART,
          Q1: { currentContinuous: "200 A" },
          T1: { currentContinuous: null },
          M1: { currentContinuous: null },
        },
        more: (made) => {
          made.part("S9", "switch", { contactCurrent: "5 A" });
        },
      }).build(),
      at: ["Q1", "Q9"],
      reason: "current",
      missing: ["M1.currentContinuous", "T1.currentContinuous"],
    },
    {
      name: "a direction contact, and nobody stated the greatest motor current",
      drawing: turned("300 A", {}),
      at: ["S2x", "S3x"],
      reason: "motor",
      missing: ["T1.motorCurrentMax"],
    },
  ],
  doesNotApply: [
    {
      name: "a switch that carries nothing",
      drawing: drawing()
        .part("S1", "switch", { contactCurrent: "1 A" })
        .parts("lamp", { voltage: "12 V", power: "5 W" }, "P1")
        .wires(WIRE, "S1:out - P1:+")
        .build(),
    },
  ],
});
