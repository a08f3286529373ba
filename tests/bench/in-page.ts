/** What runs inside the page while it is measured. Each function is sent there as text and may use nothing from outside. */

export interface Shown {
  /** Until the notes in the margin had changed for the last time, ms. */
  readonly findings: number;
  /** Until every check had been gone through, ms. */
  readonly settled: number;
}

/** From the next key that goes down to the frames that show what it changed. */
export function timeOfKey(): { readonly shown: Promise<Shown> } {
  const frame = document.querySelector(".frame");
  if (frame === null) throw new Error("The window has no frame.");
  const told = (): string =>
    [...document.querySelectorAll(".note-number, .note-title, .stages")].map(({ textContent }) => textContent).join();
  const shown = new Promise<Shown>((resolve, reject) => {
    setTimeout(() => reject(new Error("No findings came in ten seconds.")), 10_000);
    let begun: number | undefined;
    const onKey = (event: KeyboardEvent): void => {
      if (event.key === "Control" || event.key === "Shift") return;
      removeEventListener("keydown", onKey, true);
      begun = event.timeStamp;
    };
    addEventListener("keydown", onKey, true);
    // After the frame that paints something has begun, a message comes in once it is painted.
    const painted = (then: (at: number) => void): void => {
      requestAnimationFrame(() => {
        const channel = new MessageChannel();
        channel.port1.onmessage = () => then(performance.now());
        channel.port2.postMessage(0);
      });
    };
    let before = told();
    let findings = 0;
    const watch = new MutationObserver(() => {
      if (begun === undefined) return;
      const from = begun;
      const now = told();
      if (now !== before) painted((at) => (findings = at - from));
      before = now;
      if (frame.getAttribute("data-analysis") !== "settled") return;
      watch.disconnect();
      painted((at) => resolve({ findings, settled: at - from }));
    });
    watch.observe(frame, {
      attributes: true,
      attributeFilter: ["data-analysis"],
      subtree: true,
      childList: true,
      characterData: true,
    });
  });
  return { shown };
}

export interface Gesture {
  readonly gesture: "pan" | "zoom" | "drag" | "to-100" | "to-all";
  readonly frames: number;
  /** Millimetres of the sheet where something can be taken hold of. */
  readonly parts: readonly (readonly [number, number])[];
}

/** Milliseconds between frames while a gesture goes on, one event a frame. */
export async function framesWhile({ gesture, frames, parts }: Gesture): Promise<number[]> {
  const surface = document.querySelector(".sheet-surface");
  const pane = document.querySelector(".react-flow__pane");
  if (surface === null || pane === null) throw new Error("The window has no sheet.");
  const room = surface.getBoundingClientRect();
  const [x, y] = [room.left + room.width / 2, room.top + room.height / 2];
  const frame = (): Promise<number> => new Promise((resolve) => requestAnimationFrame(resolve));
  const wheel = (deltaX: number, deltaY: number, ctrlKey: boolean): void => {
    const given = { deltaX, deltaY, ctrlKey, clientX: x, clientY: y, bubbles: true, cancelable: true };
    pane.dispatchEvent(new WheelEvent("wheel", given));
  };
  const pointer = (type: string, clientX: number, clientY: number, target: EventTarget): void => {
    const given = { clientX, clientY, button: 0, buttons: 1, pointerId: 1, isPrimary: true, bubbles: true };
    target.dispatchEvent(new PointerEvent(type, given));
  };
  const scale = (): number => {
    const paper = document.querySelector<HTMLElement>(".react-flow__viewport");
    return new DOMMatrix(paper?.style.transform).a;
  };
  if (gesture === "to-100" || gesture === "to-all") {
    const wanted = gesture === "to-100" ? 1 : 0.25;
    for (let index = 0; index < 400 && Math.abs(scale() / wanted - 1) > 0.05; index += 1) {
      wheel(0, scale() < wanted ? -4 : 4, true);
      await frame();
    }
    return [];
  }
  let [handX, handY] = [x, y];
  if (gesture === "drag") {
    const paper = document.querySelector(".paper")?.getBoundingClientRect() ?? new DOMRect();
    const millimetre = 4 * scale();
    const [near] = parts
      .map(([px, py]) => [paper.left + px * millimetre, paper.top + py * millimetre] as const)
      .sort((a, b) => Math.hypot(a[0] - x, a[1] - y) - Math.hypot(b[0] - x, b[1] - y));
    if (near === undefined) throw new Error("There is nothing on the sheet to drag.");
    [handX, handY] = near;
    pointer("pointerdown", handX, handY, pane);
  }
  const times: number[] = [];
  let last = await frame();
  for (let index = 0; index < frames; index += 1) {
    const side = Math.floor(index / 30) % 2 === 0 ? 1 : -1;
    if (gesture === "pan") wheel(12 * side, 6 * side, false);
    if (gesture === "zoom") wheel(0, 6 * side, true);
    if (gesture === "drag") {
      handX += 4 * side;
      handY += 2 * side;
      pointer("pointermove", handX, handY, pane);
    }
    const now = await frame();
    times.push(now - last);
    last = now;
  }
  if (gesture === "drag") {
    pointer("pointermove", handX, handY, pane);
    pointer("pointerup", handX, handY, pane);
  }
  return times;
}
