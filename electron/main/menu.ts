/**
 * The menu. Each entry's id is the action that the window carries out. Keys are shown but not taken
 * (registerAccelerator): the window hears them itself, and knows whether a text field or a dialog needs them.
 */
import type { MenuItemConstructorOptions } from "electron";
import type { MenuAction } from "../../core/host/host.ts";

type Entry = MenuItemConstructorOptions;

export function menuTemplate(send: (action: MenuAction) => void, underDevelopment: boolean): Entry[] {
  const entry = (id: MenuAction, label: string, accelerator?: string): Entry => ({
    id,
    label,
    click: () => send(id),
    ...(accelerator === undefined ? {} : { accelerator, registerAccelerator: false }),
  });
  const line: Entry = { type: "separator" };
  const inspector: Entry[] = underDevelopment ? [line, { role: "toggleDevTools" }] : [];
  return [
    ...(process.platform === "darwin" ? [{ role: "appMenu" } satisfies Entry] : []),
    {
      label: "&File",
      submenu: [
        entry("new", "Begin an &empty drawing"),
        entry("open", "&Open a drawing…", "CmdOrCtrl+O"),
        entry("open-demo", "Open a &demo vehicle…"),
        line,
        entry("save", "&Save the drawing", "CmdOrCtrl+S"),
        entry("save-as", "Save the drawing under &another name…", "CmdOrCtrl+Shift+S"),
        entry("export-svg", "E&xport all sheets as SVG…", "CmdOrCtrl+E"),
        entry("save-report", "Save the &findings report…"),
        line,
        { role: "quit" },
      ],
    },
    {
      label: "&Edit",
      submenu: [
        entry("undo", "&Undo the last edit", "CmdOrCtrl+Z"),
        entry("redo", "Do the undone edit &again", "CmdOrCtrl+Shift+Z"),
        line,
        { role: "cut" },
        { role: "copy" },
        { role: "paste" },
        entry("delete", "&Delete what is selected"),
        entry("select-all", "&Select everything on the sheet", "CmdOrCtrl+A"),
        line,
        entry("preferences", "Set &preferences…", "CmdOrCtrl+,"),
      ],
    },
    {
      label: "&View",
      submenu: [
        entry("command-field", "Search, do or &go to something", "CmdOrCtrl+K"),
        line,
        entry("zoom-in", "&Enlarge the sheet", "CmdOrCtrl+Plus"),
        entry("zoom-out", "Make the sheet &smaller", "CmdOrCtrl+-"),
        entry("zoom-whole", "Show the &whole sheet", "CmdOrCtrl+0"),
        line,
        { role: "togglefullscreen" },
        ...inspector,
      ],
    },
    {
      label: "&Help",
      submenu: [
        entry("checks", "Show all c&hecks and how each stands"),
        entry("cautions", "Read the &cautions"),
        entry("licences", "Read the &licences"),
        entry("about", "&About Loomwright"),
      ],
    },
  ];
}
