/** Transitions in the words of someone at the wheel. */
import type { TransitionName } from "../../../core/circuit/transition/transition.ts";

export const TRANSITION_WORDS: Readonly<Record<TransitionName, { readonly name: string; readonly about: string }>> = {
  "key-on": { name: "key on", about: "From parked to ready: the bus charges, the main contactor closes." },
  drive: { name: "drive", about: "From ready to driving: the pedal goes down, full load comes." },
  "key-off": { name: "key off", about: "From driving to parked: the contactor opens, the capacitors empty." },
  "key-off-on": { name: "key off and on", about: "While driving the key goes off and at once on again." },
  "emergency-stop": { name: "emergency stop", about: "The stop is pressed at full load." },
  "plug-in": { name: "plug in", about: "From parked to charging: the mains plug goes in." },
  unplug: { name: "unplug", about: "From charging to parked: the mains plug is pulled." },
  disconnect: { name: "disconnect", about: "The pack's disconnect is pulled." },
  "supply-lost": { name: "12 V lost", about: "While driving the 12 V supply is lost." },
  "output-bounce": {
    name: "power-up",
    about: "Outputs do as they please for a moment while their electronics wake up.",
  },
};

/** Seconds as people say them. */
export function moment(seconds: number): string {
  if (seconds === 0) return "0 s";
  if (seconds < 0.1) return `${(seconds * 1000).toFixed(seconds < 0.01 ? 2 : 1)} ms`;
  return seconds < 120 ? `${seconds.toFixed(seconds < 10 ? 3 : 1)} s` : `${(seconds / 60).toFixed(1)} min`;
}
