/**
 * Unsaved work in the browser's database. A lock held as long as the tab lives marks work that has an owner: only the
 * work of tabs that are gone is offered.
 */
import type { Recovery } from "../../../core/host/host.ts";
import { all, drop, put } from "./database.ts";

const lockName = (id: string): string => `loomwright-recovery-${id}`;

/** How to let go of each lock that this tab holds. */
const held = new Map<string, () => void>();

function hold(id: string): void {
  if (held.has(id) || !("locks" in navigator)) return;
  void navigator.locks.request(lockName(id), () => new Promise<void>((release) => held.set(id, release)));
}

export async function writeRecovery(id: string, name: string, text: string): Promise<void> {
  hold(id);
  const recovery: Recovery = { id, name, text, savedAt: new Date().toISOString() };
  await put("recovery", id, recovery);
}

export async function dropRecovery(id: string): Promise<void> {
  await drop("recovery", id);
  held.get(id)?.();
  held.delete(id);
}

export async function listRecoveries(): Promise<readonly Recovery[]> {
  const locks = "locks" in navigator ? ((await navigator.locks.query()).held ?? []) : [];
  const owned = new Set(locks.map(({ name }) => name));
  const kept = (await all("recovery")) as readonly Recovery[];
  return kept.filter(({ id }) => !owned.has(lockName(id))).sort((a, b) => (a.savedAt < b.savedAt ? 1 : -1));
}
