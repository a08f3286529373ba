/** Which rows of a fixed height a scrolled box shows, with some beyond its edges so that scrolling finds them there. */
import { useEffect, useState } from "react";
import type { RefObject } from "react";

const BEYOND = 8;

interface RowsInView {
  readonly first: number;
  readonly last: number;
  /** Whole rows that fit. */
  readonly page: number;
}

/** Heights in pixels; `heading` stays above the rows. */
export function useRowsInView(
  box: RefObject<HTMLElement | null>,
  row: number,
  heading: number,
  count: number,
): RowsInView {
  const [{ top, height }, setView] = useState({ top: 0, height: 600 });
  useEffect(() => {
    const element = box.current;
    if (element === null) return undefined;
    const look = (): void => {
      // In steps of rows: between them nothing changes.
      const next = { top: Math.floor(element.scrollTop / row), height: element.clientHeight };
      setView((now) => (now.top === next.top && now.height === next.height ? now : next));
    };
    look();
    element.addEventListener("scroll", look, { passive: true });
    const observer = new ResizeObserver(look);
    observer.observe(element);
    return () => {
      element.removeEventListener("scroll", look);
      observer.disconnect();
    };
  }, [box, row]);
  const page = Math.max(1, Math.floor((height - heading) / row));
  return { first: Math.max(0, top - BEYOND), last: Math.min(count - 1, top + page + BEYOND), page };
}
