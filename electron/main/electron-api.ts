/** All of Electron that the main process uses, in Electron's own types; a test hands in a double of this shape. */
import type * as Electron from "electron";

export interface ElectronApi {
  readonly app: Pick<
    Electron.App,
    | "whenReady"
    | "quit"
    | "on"
    | "requestSingleInstanceLock"
    | "getPath"
    | "addRecentDocument"
    | "enableSandbox"
    | "isPackaged"
    | "commandLine"
  >;
  readonly BrowserWindow: typeof Electron.BrowserWindow;
  readonly Menu: Pick<typeof Electron.Menu, "buildFromTemplate" | "setApplicationMenu">;
  readonly dialog: Pick<Electron.Dialog, "showOpenDialog" | "showSaveDialog" | "showMessageBoxSync">;
  readonly ipcMain: Pick<Electron.IpcMain, "handle" | "on">;
  readonly protocol: Pick<Electron.Protocol, "registerSchemesAsPrivileged" | "handle">;
  readonly session: {
    readonly defaultSession: Pick<
      Electron.Session,
      "setPermissionRequestHandler" | "setPermissionCheckHandler" | "setDevicePermissionHandler" | "webRequest"
    >;
  };
}
