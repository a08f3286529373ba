/** The routing worker: lines and texts of one sheet at a time. */
import { wireTexts } from "../../../core/drawing/sheet.ts";
import { routedSheet } from "../../../core/layout/route.ts";
import { sheetById } from "../../../core/project/lookup.ts";
import type { RouteAnswer, RouteRequest } from "./route-protocol.ts";

const scope = self as unknown as {
  postMessage(message: RouteAnswer): void;
  onmessage: ((event: MessageEvent<RouteRequest>) => void) | null;
};

scope.onmessage = ({ data: { project, sheet: id } }) => {
  const sheet = sheetById(project, id);
  const routed = routedSheet(project, id);
  const { paths, stubs, nets } = routed;
  scope.postMessage({ paths, stubs, nets, texts: sheet === undefined ? [] : wireTexts(project, sheet, routed) });
};
