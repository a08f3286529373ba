/** What the window and its routing worker say to each other. */
import type { RoutedSheet } from "../../../core/layout/route.ts";
import type { WireText } from "../../../core/drawing/wire-text.ts";
import type { Project, SheetId } from "../../../core/project/document.ts";

export interface RouteRequest {
  readonly project: Project;
  readonly sheet: SheetId;
}

/** Views stay behind: kinds of parts are code, which cannot be sent. */
export interface RouteAnswer extends Pick<RoutedSheet, "paths" | "stubs" | "nets"> {
  readonly texts: readonly WireText[];
}
