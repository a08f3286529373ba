/** The words of every check: short, plain, each term one that the person who reads it knows or finds explained. */
import { describe, expect, test } from "vitest";
import { CHECKS } from "../../../core/checks/catalogue.ts";

/** Measured on what is read once without going back: longer ones were split or cut. */
const LONGEST = { title: 32, why: 40, mend: 40, reason: 34 } as const;

/**
 * Words that need schooling in electronics, or that blame or name the machine, with what to say instead. Terms of the
 * trade (contactor, pre-charge, interlock, suppression ...) are not among them.
 */
const NOT_SAID: readonly (readonly [pattern: RegExp, instead: string])[] = [
  [/\b(error|invalid|illegal|failure mode|bug)\b/i, "what is wrong, at which place"],
  [/\bimpedance\b/i, "resistance"],
  [/\b(bus|DC link|rail)\b/i, "supply of the controller, traction circuit, capacitors"],
  [/\b(galvanic|galvanically)\b/i, "isolated, parted"],
  [/\bpotentials?\b/i, "voltage, points of different voltage"],
  [/\b(node|netlist|topology)s?\b/i, "terminal, wires"],
  [/\b(EMF|PWM|MOSFETs?|IGBTs?)\b/, "voltage, pulses, transistors"],
  [/\b(transient|ripple|quiescent|steady-state)\b/i, "pulse, continuous current"],
  [/\b(common-mode|differential)\b/i, "voltage to the chassis, voltage between"],
  [/\badiabatic\b/i, "before it loses heat"],
  [/\b(asserted|de-asserted|tri-state|floating)\b/i, "on, off, joined to nothing"],
  [/\b(you must|your mistake|you forgot)\b/i, "what to do"],
  [/\bfor good\b/i, "continuously, or for ever: it means both"],
];

const wordsOf = (text: string): number => text.split(/\s+/).length;

const TEXTS = CHECKS.flatMap(({ id, messages, reasons }) => [
  ...Object.entries(messages).flatMap(([message, { title, why, mend }]) => [
    { at: `${id} ${message} title`, kind: "title" as const, text: title },
    { at: `${id} ${message} why`, kind: "why" as const, text: why },
    { at: `${id} ${message} mend`, kind: "mend" as const, text: mend },
  ]),
  ...Object.entries(reasons).map(([reason, text]) => ({ at: `${id} ${reason}`, kind: "reason" as const, text })),
]);

describe("messages and reasons of every check", () => {
  test("are no longer than is read once", () => {
    expect(TEXTS.length).toBeGreaterThan(800);
    expect(
      TEXTS.filter(({ kind, text }) => wordsOf(text) > LONGEST[kind]).map(({ at, text }) => `${at}: ${text}`),
    ).toEqual([]);
  });
  test.each(NOT_SAID)("do not say %s", (pattern) => {
    expect(TEXTS.filter(({ text }) => pattern.test(text)).map(({ at, text }) => `${at}: ${text}`)).toEqual([]);
  });
  test("tell what to do in the mend, and nothing twice in title and mend", () => {
    for (const { id, messages } of CHECKS) {
      for (const [message, { title, mend }] of Object.entries(messages))
        expect(mend, `${id} ${message}`).not.toBe(title);
    }
  });
});
