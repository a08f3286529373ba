import { exposedLive } from "../../../../core/checks/shock/exposed-live.ts";
import type { Parameters } from "../../../../core/project/document.ts";
import { checkTable } from "../../../harness/check-table.ts";
import { drawing } from "../../../harness/drawing.ts";
import type { PartOptions, WireOptions } from "../../../harness/drawing.ts";
import { HEAVY, SMALL, withTwelveVolts } from "../pack.ts";

const PACK = {
  duty: "traction",
  chemistry: "flooded-lead",
  capacity: "100 Ah",
  resistance: "50 mohm",
  finish: "booted",
};
const HEATER = { voltage: "144 V", power: "2 kW", finish: "booted" };

/** A pack and a heater behind a contactor, all booted but what a case says. */
const cart = (
  contactor: Parameters,
  options: PartOptions = {},
  blocks = "12",
  lead: WireOptions = {},
  more: Parameters = {},
) =>
  drawing()
    .zone("luggage")
    .enclosure("box", { toolClosed: true })
    .enclosure("chest", { toolClosed: false, zone: "luggage" })
    .part("G1", "battery-pack", { ...PACK, blocks, ...more })
    .part("Q1", "contactor", { coilVoltage: "12 V", coilPower: "12 W", ...contactor }, options)
    .part("E1", "heater", HEATER)
    .wires({ ...HEAVY, ...lead }, "G1:+ - Q1:line", "Q1:load - E1:+")
    .wire("E1:-", "G1:-", HEAVY)
    .build();

const plug = (touchSafe: Parameters, options: PartOptions = {}) =>
  drawing()
    .enclosure("box", { toolClosed: true })
    .part("G1", "battery-pack", { ...PACK, blocks: "12" })
    .part("X1", "connector", { positions: "2", pinVoltage: "600 V", finish: "booted", ...touchSafe }, options)
    .part("E1", "heater", HEATER)
    .wires(HEAVY, "G1:+ - X1:1a", "X1:1b - E1:+", "E1:- - X1:2b", "X1:2a - G1:-")
    .build();

checkTable(exposedLive, {
  fails: [
    {
      name: "bare studs of a contactor",
      drawing: cart({ finish: "bare" }),
      at: "Q1:line",
      message: "bare",
      severity: "DANGER",
      // 2.47 V x 72 on charge.
      value: 177.84,
      limit: 60,
      remedies: ["fit-boots"],
    },
    {
      name: "one bare post of the pack at 72 V",
      drawing: cart({ finish: "booted" }, {}, "6", {}, { "finish--": "bare" }),
      at: "G1:-",
      message: "bare",
      severity: "DANGER",
      remedies: ["fit-boots"],
      value: 88.92,
    },
    {
      name: "bare studs in a chest in the luggage space that opens by hand, and a bare post outside it",
      drawing: cart({ finish: "bare" }, { enclosure: "chest" }, "12", {}, { "finish-+": "bare" }),
      at: ["G1:+", "Q1:line"],
      message: "bare",
      severity: "DANGER",
      remedies: ["fit-boots"],
    },
    {
      name: "a plug with bare pins",
      drawing: plug({ touchSafe: "no" }),
      at: "X1:1a",
      message: "bare",
      severity: "DANGER",
      remedies: [],
    },
  ],
  passes: [
    { name: "booted studs", drawing: cart({ finish: "booted" }), at: ["G1", "Q1", "E1"] },
    {
      name: "bare studs with a boot on every lug",
      drawing: cart({ finish: "bare" }, {}, "12", { boots: [true, true] }),
    },
    {
      name: "bare studs under a fixed cover",
      drawing: cart({ finish: "bare" }, { covers: ["line", "load"] }),
      at: "Q1",
    },
    { name: "bare studs in a screwed box", drawing: cart({ finish: "bare" }, { enclosure: "box" }), at: "Q1" },
    { name: "a plug that is safe to touch", drawing: plug({ touchSafe: "yes" }), at: "X1" },
    {
      name: "a plug with bare pins in a screwed box",
      drawing: plug({ touchSafe: "no" }, { enclosure: "box" }),
      at: "X1",
    },
  ],
  notChecked: [
    {
      name: "studs of unstated finish",
      drawing: cart({}),
      at: "Q1",
      reason: "cover",
      missing: ["Q1.finish"],
    },
    {
      name: "a plug of which nobody said whether its pins can be touched",
      drawing: plug({}),
      at: "X1",
      reason: "cover",
      missing: ["X1.touchSafe"],
    },
    {
      name: "bare studs on 48 V of unstated chemistry",
      drawing: cart({ finish: "bare" }, {}, "4", {}, { chemistry: null }),
      at: "Q1",
      reason: "voltage",
      missing: ["G1.chemistry"],
    },
  ],
  doesNotApply: [
    { name: "bare studs at 48 V", drawing: cart({ finish: "bare" }, {}, "4") },
    {
      name: "the 12 V side",
      drawing: withTwelveVolts(drawing()).part("P1", "lamp").wires(SMALL, "F20:2 - P1:+").build(),
    },
  ],
});
