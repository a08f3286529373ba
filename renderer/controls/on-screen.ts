/** Where the things of the sheet are on the screen just now, in window coordinates. */

export interface ScreenPoint {
  readonly x: number;
  readonly y: number;
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
