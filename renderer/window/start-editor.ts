/** Puts the window together: host, store, analysis worker, files, actions; then opens the demo or what was recovered. */
import type { Host, MenuAction } from "../../core/host/host.ts";
import { newProject } from "../../core/project/new-project.ts";
import { editorActions } from "./actions.ts";
import { AnalysisClient } from "./analysis/client.ts";
import type { WorkerLike } from "./analysis/client.ts";
import type { Surroundings } from "./editor-context.ts";
import { EditorStore } from "./editor-store.ts";
import { Files } from "./files.ts";
import { browserHost } from "./host-browser.ts";
import { desktopHost } from "./host-desktop.ts";
import { Journal } from "./journal.ts";
import { listenToKeys } from "./keyboard.ts";
import { MenuRelay } from "./menu-relay.ts";
import { Shell } from "./shell.ts";
import type { ShellParts } from "./shell-context.ts";
import { followTheme } from "./theme.ts";

export interface WindowParts extends Surroundings, ShellParts {}

export function startEditor(): WindowParts {
  const relay = new MenuRelay(desktopHost() ?? browserHost());
  const host: Host = relay.host;
  const worker = new Worker(new URL("./analysis/worker.ts", import.meta.url), { type: "module" });
  const client = new AnalysisClient(worker as WorkerLike, {
    solved: (view) => store.solved(view),
    checked: (view) => store.checked(view),
    mended: (label, patches) => store.mended(label, patches),
    unmended: (text) => store.set({ notice: text }),
    broke: (text) => store.broke(text),
  });
  worker.onerror = (event) => store.broke(event.message);
  const store = new EditorStore(newProject(), {
    opened: (project) => client.open(project),
    edited: (project, patches) => client.edit(project, patches),
    mend: (finding, remedy) => client.mend(finding, remedy),
  });
  const shell = new Shell(host);
  const journal = new Journal(host, store);
  const files = new Files(host, store, shell, journal, (question) => client.ask(question));
  const actions = editorActions({ store, shell, files, send: (action: MenuAction) => relay.send(action) });
  relay.serve((action) => actions.find(({ id }) => id === action)?.run());
  followTheme(shell);
  listenToKeys(window, actions);
  // Nothing goes wrong in silence.
  addEventListener("unhandledrejection", ({ reason }) => {
    const why = reason instanceof Error ? reason.message : String(reason);
    store.set({ notice: `The window could not finish what it was doing (${why}). Save the drawing, then try again.` });
  });
  void begin(host, shell, files, journal);
  return { store, host, shell, files, actions, ask: (question) => client.ask(question) };
}

async function begin(host: Host, shell: Shell, files: Files, journal: Journal): Promise<void> {
  host.onOpenRequest((file) => void files.openGiven(file));
  host.onChangedOnDisk((token) => void files.changedOnDisk(token));
  journal.begin();
  await shell.loadPreferences();
  await shell.refreshFiles();
  const query = new URLSearchParams(location.search);
  const asked = query.get("demo");
  const demos = shell.now.demos;
  // The vehicle with mistakes in it shows best what the program is for.
  const first = demos.find(({ id }) => id === asked) ?? demos.find(({ id }) => id.includes("faulty")) ?? demos[0];
  await files.showFirst(query.has("new") ? undefined : first?.id);
  shell.begun();
  if (!shell.now.preferences.cautionsRead) void files.showCautions(true);
  for (const recovery of await host.listRecoveries().catch(() => [])) await files.offerRecovery(recovery);
}
