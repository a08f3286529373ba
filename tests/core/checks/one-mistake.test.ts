/** One mistake in an arrangement that works: flagged where it was made, and what follows from it folded under it. */
import { describe, expect, test } from "vitest";
import { analyse } from "../../../core/circuit/analyse.ts";
import { coilVoltageWrong } from "../../../core/checks/coils/coil-voltage-wrong.ts";
import type { Check } from "../../../core/checks/define.ts";
import { blockReversed } from "../../../core/checks/polarity/block-reversed.ts";
import { diodeReversed } from "../../../core/checks/polarity/diode-reversed.ts";
import { supplyReversed } from "../../../core/checks/polarity/supply-reversed.ts";
import { placeId } from "../../../core/checks/finding.ts";
import { runCheck, runChecks } from "../../../core/checks/run.ts";
import { acDcJoined } from "../../../core/checks/shorts/ac-dc-joined.ts";
import { loadBypassed } from "../../../core/checks/shorts/load-bypassed.ts";
import { sourceShorted } from "../../../core/checks/shorts/source-shorted.ts";
import { stringsUnequal } from "../../../core/checks/shorts/strings-unequal.ts";
import { heldByBackfeed } from "../../../core/checks/switching/held-by-backfeed.ts";
import { relayChatter } from "../../../core/checks/switching/relay-chatter.ts";
import type { Part, Project } from "../../../core/project/document.ts";
import { HEAVY, resistorAcrossSolenoid, SMALL } from "./known-good.ts";
import { KNOWN_GOOD } from "./known-good-list.ts";
import { splitPack } from "./known-good-packs.ts";
import { swapped, unstated } from "./mistakes.ts";

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

/** Ids of the findings with what is folded under each. */
function findings(project: Project): readonly string[] {
  return runChecks(analyse(project), CHECKS).findings.map(
    ({ check, folded }) => `${check.id} (${folded.map((under) => under.check.id).join(", ")})`,
  );
}

function flags(project: Project, check: Check, part: Part): boolean {
  return runCheck(check, analyse(project)).failures.some(({ where }) =>
    where.some((place) => placeId(place).split(":")[0] === part.id),
  );
}

describe("one cause, one finding", () => {
  test("pack leads swapped at the controller", () => {
    const wrong = swapped(resistorAcrossSolenoid().build(), "T1:B+", "T1:B-");
    const found = findings(wrong);
    expect(found[0]).toMatch(/^supply-reversed \(.*source-shorted/);
    expect(found.filter((text) => text.startsWith("source-shorted"))).toEqual([]);
  });
  test("coil diode turned round", () => {
    const wrong = swapped(resistorAcrossSolenoid().build(), "R2:anode", "R2:cathode");
    expect(findings(wrong).filter((text) => !text.startsWith("diode-reversed (source-shorted"))).toEqual([]);
  });
  test("a cable across the controller's input", () => {
    const found = findings(splitPack().wire("T1:B+", "T1:B-", HEAVY).build());
    expect(found.filter((text) => text.startsWith("source-shorted"))).toHaveLength(1);
    expect(found.filter((text) => text.startsWith("load-bypassed"))).toEqual([]);
  });
  test("a wire across a lamp of the 12 V side", () => {
    const sketch = splitPack()
      .part("P9", "lamp", { voltage: "12 V", power: "21 W" })
      .wires(SMALL, "S9:12 - P9:+", "P9:- - G20:-", "P9:+ - P9:-");
    expect(findings(sketch.build())).toHaveLength(1);
  });
});

describe.each(KNOWN_GOOD)("mistakes in: %s", (_, draw) => {
  const sound = draw();
  const analysis = analyse(sound);
  const partsOf = (kind: string): readonly Part[] => sound.parts.filter((part) => part.kind === kind);

  test("every block of a string that is turned round", () => {
    for (const pack of analysis.packs) {
      if (pack.blocks.length < 2) continue;
      for (const { part } of pack.blocks) {
        const wrong = swapped(sound, `${part.designation}:+`, `${part.designation}:-`);
        // Two blocks make a half of the step car: what they feed in the light-pedal state tells which of them it is.
        const halves =
          pack.blocks.length === 4 && partsOf("dc-controller").length === 0 && partsOf("ac-controller").length === 0;
        const flagged = halves
          ? runCheck(blockReversed, analyse(wrong)).failures.length > 0
          : flags(wrong, blockReversed, part);
        expect(flagged, part.designation).toBe(true);
      }
    }
  });
  test("every polarised supply with plus and minus swapped", () => {
    for (const { part, kind, values } of analysis.network.parts) {
      for (const { plus, minus, polarised } of kind.supplyPairs(values)) {
        const wired = [plus, minus].every((id) => analysis.network.wiresAt([part.id, id]).length > 0);
        if (!polarised || !wired) continue;
        const wrong = swapped(sound, `${part.designation}:${plus}`, `${part.designation}:${minus}`);
        expect(flags(wrong, supplyReversed, part), `${part.designation}:${plus}`).toBe(true);
      }
    }
  });
  test("every coil made for twice the voltage", () => {
    for (const part of sound.parts) {
      const volts = part.parameters["coilVoltage"];
      if (typeof volts !== "string") continue;
      const wrong = {
        ...sound,
        parts: sound.parts.map((each) =>
          each === part
            ? { ...part, parameters: { ...part.parameters, coilVoltage: `${2 * Number.parseFloat(volts)} V` } }
            : each,
        ),
      };
      expect(flags(wrong, coilVoltageWrong, part), part.designation).toBe(true);
    }
  });
  test("no field that is left out turns into a pass", () => {
    const passesOf = (project: Project): ReadonlySet<string> => {
      const solved = analyse(project);
      return new Set(
        CHECKS.flatMap((check) => runCheck(check, solved).passed.map((place) => `${check.id} ${placeId(place)}`)),
      );
    };
    const before = passesOf(sound);
    const fields = new Map<string, Part>();
    for (const part of sound.parts) {
      for (const name of Object.keys(part.parameters)) fields.set(`${part.kind} ${name}`, part);
    }
    for (const [field, part] of fields) {
      const name = field.split(" ")[1] ?? "";
      const after = passesOf(unstated(sound, part.designation, name));
      expect(
        [...after].filter((pass) => !before.has(pass)),
        `${part.designation}.${name}`,
      ).toEqual([]);
    }
  });
});
