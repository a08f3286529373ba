/** Every kind of part that a drawing may hold. To add one: its own file beside this one, and one line here. */
import type { PartKind } from "./define.ts";
import { changeoverContactor } from "./changeover-contactor.ts";
import { contactor } from "./contactor.ts";
import { emergencyStop } from "./emergency-stop.ts";
import { inertiaSwitch } from "./inertia-switch.ts";
import { keySwitch } from "./key-switch.ts";
import { manualDisconnect } from "./manual-disconnect.ts";
import { microSwitch } from "./micro-switch.ts";
import { pushButton } from "./push-button.ts";
import { relay } from "./relay.ts";
import { selectorSwitch } from "./selector-switch.ts";
import { solidStateSwitch } from "./solid-state-switch.ts";
import { toggleSwitch } from "./switch.ts";
import { timerRelay } from "./timer-relay.ts";

const ALL: readonly PartKind[] = [
  changeoverContactor,
  contactor,
  emergencyStop,
  inertiaSwitch,
  keySwitch,
  manualDisconnect,
  microSwitch,
  pushButton,
  relay,
  selectorSwitch,
  solidStateSwitch,
  toggleSwitch,
  timerRelay,
];

export const KINDS: ReadonlyMap<string, PartKind> = new Map(ALL.map((kind) => [kind.kind, kind]));

/** The kind of this name; undefined where there is none, so that the caller can name the place. */
export function kindOf(name: string): PartKind | undefined {
  return KINDS.get(name);
}
