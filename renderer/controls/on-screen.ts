/** Where the things of the sheet are on the screen just now, in window coordinates. */

export interface ScreenPoint {
  readonly x: number;
  readonly y: number;
}

const found = (attribute: string, value: string): Element | null =>
  document.querySelector(`[data-${attribute}="${CSS.escape(value)}"]`);

/** Half way along the wire's line: the middle of its box need not lie on it. */
function onLine(group: Element): ScreenPoint | undefined {
  const line = group.querySelector("path");
  const matrix = line?.getScreenCTM();
  if (line == null || matrix == null) return undefined;
  const { x, y } = line.getPointAtLength(line.getTotalLength() / 2).matrixTransform(matrix);
  return { x, y };
}

/**
 * A place of a finding by its key: "p12", "p12:+", "w3". undefined where the sheet shown does not have it. `on` is the
 * spot itself, `beside` where its number stands without covering it.
 */
export function onScreen(key: string): { readonly on: ScreenPoint; readonly beside: ScreenPoint } | undefined {
  const terminal = key.includes(":") ? found("terminal", key) : null;
  if (terminal !== null) {
    const { left, top, width, height } = terminal.getBoundingClientRect();
    const on = { x: left + width / 2, y: top + height / 2 };
    return { on, beside: { x: on.x + 12, y: on.y - 12 } };
  }
  const part = key.includes(":") ? null : found("part", key);
  if (part !== null) {
    const { right, top, left, bottom } = (part.querySelector(".view-body") ?? part).getBoundingClientRect();
    return { on: { x: (left + right) / 2, y: (top + bottom) / 2 }, beside: { x: right, y: top } };
  }
  const wire = found("wire", key);
  const on = wire === null ? undefined : onLine(wire);
  return on === undefined ? undefined : { on, beside: { x: on.x, y: on.y - 12 } };
}

/** The part of the window in which the sheet shows. */
export const sheetWindow = (): DOMRect | undefined => document.querySelector(".frame-paper")?.getBoundingClientRect();

export const within = ({ x, y }: ScreenPoint, { left, right, top, bottom }: DOMRect): boolean =>
  x >= left && x <= right && y >= top && y <= bottom;

/** Calls back on every frame in which something may have moved; gives the way to stop it. */
export function everyFrame(work: () => void): () => void {
  let asked = 0;
  const frame = (): void => {
    work();
    asked = requestAnimationFrame(frame);
  };
  asked = requestAnimationFrame(frame);
  return () => cancelAnimationFrame(asked);
}
