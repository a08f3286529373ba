/** The page stays where it is, opens nothing, asks for no permission and fetches nothing from outside. */
import type { Session, WebContents } from "electron";
import { SCHEME } from "./page-address.ts";

/** Own files, what the page makes itself, and the inspector of a program under development. */
const FETCHED = new RegExp(`^(${SCHEME}|blob|data|devtools):`);

export function fencePage(page: WebContents): void {
  page.setWindowOpenHandler(() => ({ action: "deny" }));
  page.on("will-navigate", (event) => event.preventDefault());
  page.on("will-frame-navigate", (event) => event.preventDefault());
  page.on("will-redirect", (event) => event.preventDefault());
  page.on("will-attach-webview", (event) => event.preventDefault());
}

type Fenced = Pick<
  Session,
  "setPermissionRequestHandler" | "setPermissionCheckHandler" | "setDevicePermissionHandler" | "webRequest"
>;

/** Electron grants whatever nobody decides. */
export function fenceSession(session: Fenced): void {
  session.setPermissionRequestHandler((_page, _permission, decide) => decide(false));
  session.setPermissionCheckHandler(() => false);
  session.setDevicePermissionHandler(() => false);
  session.webRequest.onBeforeRequest((details, decide) => decide({ cancel: !FETCHED.test(details.url) }));
}
