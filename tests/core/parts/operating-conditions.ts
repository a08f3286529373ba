/**
 * The eleven operating states as the description of the states lists their controls, typed by hand, column by column:
 * what the vehicle and its driver do in each. Independent of the program's own table.
 */
import type { Condition } from "../../../core/parts/condition.ts";

type Row = Readonly<Record<string, readonly string[]>>;

const STATES =
  "stored parked key-on pre-charging ready driving driving-low reversing regenerating emergency-stop charging".split(
    " ",
  );
const same = (value: string, count = STATES.length): readonly string[] => Array<string>(count).fill(value);
const list = (text: string): readonly string[] => text.split(" ");

const CONTROLS: Row = {
  disconnect: ["out", ...same("in", 10)],
  key: list("off off on on on on on on on on off"),
  emergencyStop: [...same("released", 9), "pressed", "released"],
  throttle: list("idle idle idle idle idle full full full idle full idle"),
  brake: list("free free free free free free free free pressed free free"),
  selector: list("centre centre centre centre a a a b a a centre"),
  parkingBrake: list("set set set set free free free free free free set"),
  seat: list("empty empty seated seated seated seated seated seated seated seated empty"),
  cover: same("closed"),
  door: same("closed"),
  gear: list("neutral neutral neutral neutral in in in in in in neutral"),
  clutch: same("up"),
  button: list("released released pressed pressed released released released released released released released"),
  toggle: list("off off on on on on on on on on off"),
  inertia: same("normal"),
  connector: same("plugged"),
  temperature: same("closed"),
  mains: [...same("unplugged", 10), "plugged"],
  pack: list("rest rest rest rest rest loaded low loaded taking-current loaded on-charge"),
  capacitors: list("empty steady kept part steady steady steady steady steady steady steady"),
  timers: list(
    "by-circuit by-circuit not-elapsed not-elapsed elapsed elapsed elapsed elapsed elapsed by-circuit by-circuit",
  ),
  drive: list("none none none none none forward forward reverse regeneration forward none"),
};

export const CONDITIONS: readonly Condition[] = STATES.map((state, column) => {
  const fields = Object.entries(CONTROLS).map(([name, row]) => {
    const value = row[column];
    if (value === undefined) throw new Error(`no value of ${name} in ${state}`);
    return [name, value] as const;
  });
  // The rows above are the fields of a condition, by their names; the cast is what typing them by hand costs.
  return { state, ...Object.fromEntries(fields), set: {} } as unknown as Condition;
});

export function conditionIn(state: string): Condition {
  const found = CONDITIONS.find((condition) => condition.state === state);
  if (found === undefined) throw new Error(`there is no state ${state}`);
  return found;
}
