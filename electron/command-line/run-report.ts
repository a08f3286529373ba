/** One transition as a story for a terminal window: what happens when and why, then what contacts, resistors and coils had to stand. */
import { printQuantity } from "../../core/quantity/print.ts";
import type { Dimension } from "../../core/quantity/kinds.ts";
import type { RunDocument } from "../../core/documents/run-json.ts";
import { table, wrap } from "./table.ts";

/** Times are told to a tenth of a millisecond at the start, coarser later: nobody acts on more. */
function moment(seconds: number): string {
  if (seconds < 1) return `${(seconds * 1000).toFixed(1)} ms`;
  return seconds < 100 ? `${seconds.toFixed(3)} s` : `${(seconds / 60).toFixed(1)} min`;
}

const amount = (value: number | null, dimension: Dimension): string =>
  value === null ? "-" : printQuantity(Math.abs(value) < 1e-6 ? 0 : value, dimension);

function block(title: string, text: string, rows: number): readonly string[] {
  return rows === 0 ? [] : [`\n${title}`, text];
}

/** The whole report, without a newline at its end. */
export function runReport(name: string, run: RunDocument): string {
  const right = (title: string): { title: string; align: "right" } => ({ title, align: "right" });
  const events = run.events.map(({ time, part, what, reason }) => [moment(time), part ?? "", what, reason]);
  const closings = run.closings.map((each) => [
    moment(each.time),
    `${each.part} ${each.contact}`,
    amount(each.voltsBefore, "voltage"),
    amount(each.peakAmps, "current"),
    amount(each.ampsAfter, "current"),
  ]);
  const openings = run.openings.map((each) => [
    moment(each.time),
    `${each.part} ${each.contact}`,
    amount(each.amps, "current"),
    amount(each.voltsAfter, "voltage"),
  ]);
  const resistors = run.resistors.map((each) => [
    each.part,
    amount(each.energy, "energy"),
    amount(each.peakPower, "power"),
    amount(each.endPower, "power"),
  ]);
  const coils = run.coils.map((each) => [
    moment(each.time),
    each.part,
    amount(each.peakVolts, "voltage"),
    moment(each.decay),
  ]);
  const discharges = run.discharges.map((each) => [
    each.part,
    amount(each.startVolts, "voltage"),
    each.below60 === null ? `not within ${moment(run.times.at(-1) ?? 0)}` : moment(each.below60),
    amount(each.endVolts, "voltage"),
    amount(each.drain, "resistance"),
  ]);
  const lines = [
    `${name}: ${run.transition}, from ${run.from} to ${run.to}, ${moment(run.times.at(-1) ?? 0)} simulated\n`,
    `What happens (${events.length})`,
    table([right("time"), { title: "part" }, { title: "" }, { title: "because" }], events),
    ...block(
      "Contacts that close: volts across them just before, and the current that they close onto",
      table([right("time"), { title: "contact" }, right("volts"), right("peak"), right("20 ms later")], closings),
      closings.length,
    ),
    ...block(
      "Contacts that open: the current that they interrupt, and what then stands across them",
      table([right("time"), { title: "contact" }, right("amperes"), right("volts")], openings),
      openings.length,
    ),
    ...block(
      "Resistors: energy taken, highest power, power at the end",
      table([{ title: "part" }, right("energy"), right("peak"), right("at the end")], resistors),
      resistors.length,
    ),
    ...block(
      "Coils switched off: highest voltage across them, time until they let go",
      table([right("time"), { title: "part" }, right("volts"), right("let go after")], coils),
      coils.length,
    ),
    ...block(
      "Capacitors left without a feed above 60 V: time until they are below, and what drains them",
      table([{ title: "part" }, right("from"), right("below 60 V"), right("at the end"), right("drain")], discharges),
      discharges.length,
    ),
  ];
  if (run.chatter.length > 0) {
    lines.push(`\n${wrap(`Finds no rest, opens and closes again and again: ${run.chatter.join(", ")}.`, "")}`);
  }
  if (run.assumed.length > 0) {
    const assumed = run.assumed.map(({ part, parameter }) => `${part} ${parameter}`).join(", ");
    lines.push(
      `\n${wrap(`Assumed, because nobody stated it: ${assumed}. Figures that rest on these are a guide only.`, "")}`,
    );
  }
  if (run.trouble !== null) lines.push(`\n${wrap(`Stopped early: ${run.trouble}`, "")}`);
  return lines.join("\n");
}
