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
 * Where the number of a finding stands, beside its place without covering it. The place by its key: "p12", "p12:+",
 * "w3"; undefined where the sheet shown does not have it.
 */
export function besidePlace(key: string): ScreenPoint | undefined {
  const terminal = key.includes(":") ? found("terminal", key) : null;
  if (terminal !== null) {
    const { left, top, width, height } = terminal.getBoundingClientRect();
    return { x: left + width / 2 + 12, y: top + height / 2 - 12 };
  }
  const part = key.includes(":") ? null : found("part", key);
  if (part !== null) {
    const { right, top } = (part.querySelector(".view-body") ?? part).getBoundingClientRect();
    return { x: right, y: top };
  }
  const wire = found("wire", key);
  const on = wire === null ? undefined : onLine(wire);
  return on === undefined ? undefined : { x: on.x, y: on.y - 12 };
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
