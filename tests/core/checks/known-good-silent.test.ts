import { describe, expect, test } from "vitest";
import { analyse } from "../../../core/circuit/analyse.ts";
import { coilVoltageWrong } from "../../../core/checks/coils/coil-voltage-wrong.ts";
import type { Check } from "../../../core/checks/define.ts";
import { blockReversed } from "../../../core/checks/polarity/block-reversed.ts";
import { diodeReversed } from "../../../core/checks/polarity/diode-reversed.ts";
import { supplyReversed } from "../../../core/checks/polarity/supply-reversed.ts";
import { runCheck } from "../../../core/checks/run.ts";
import { acDcJoined } from "../../../core/checks/shorts/ac-dc-joined.ts";
import { loadBypassed } from "../../../core/checks/shorts/load-bypassed.ts";
import { sourceShorted } from "../../../core/checks/shorts/source-shorted.ts";
import { stringsUnequal } from "../../../core/checks/shorts/strings-unequal.ts";
import { heldByBackfeed } from "../../../core/checks/switching/held-by-backfeed.ts";
import { relayChatter } from "../../../core/checks/switching/relay-chatter.ts";
import { KNOWN_GOOD } from "./known-good-list.ts";

const CHECKS: readonly Check[] = [
  supplyReversed,
  blockReversed,
  diodeReversed,
  sourceShorted,
  stringsUnequal,
  loadBypassed,
  acDcJoined,
  heldByBackfeed,
  relayChatter,
  coilVoltageWrong,
];

describe("arrangements that are reported to work", () => {
  test.each(KNOWN_GOOD)("%s", (_, draw) => {
    const analysis = analyse(draw());
    const driving = analysis.state("driving");
    const delivered = analysis.network.branches
      .filter(({ role, part }) => role === "source" && part?.kind.traits.battery === true)
      .map(({ index }) => driving?.currents[index] ?? 0);
    // Silence proves something only on a vehicle that drives.
    expect(Math.max(...delivered)).toBeGreaterThan(50);
    for (const check of CHECKS) {
      const outcome = runCheck(check, analysis);
      expect(outcome.broke).toBeNull();
      expect(outcome.failures.map(({ message, where, states }) => [check.id, message, where, states])).toEqual([]);
    }
  });
});
