import type { OverlayGeometry } from "@startgap/figures";
import { el, setAttributes } from "../dom.ts";
import { COARSE_STEP_s, delayNow_s, FINE_STEP_s, LONGEST_DELAY_s, settable } from "../state/delay.ts";
import { endStep } from "../state/history.ts";
import type { SessionStore } from "../state/session.ts";
import { setDelay } from "../state/setDelay.ts";
import { seconds } from "../words.ts";

/** The axis that a handle stands on: of an overlay, or of a delay map. */
export type HandleAxis = Pick<OverlayGeometry, "height" | "plot" | "xScale"> &
  Partial<Pick<OverlayGeometry, "secondStart">>;

export interface Handle {
  readonly grip: HTMLElement;
  /** Moves the handle to a delay on a figure of this geometry; null hides it. */
  place(axis: HandleAxis, delay_s: number | null): void;
}

/**
 * The second motor's start as something to take hold of: a slider for mouse, touch and keys that stands over
 * the mark in the figure. Arrow keys move it finely, with Shift or Page keys coarsely.
 */
export function handleOn(stage: HTMLElement, store: SessionStore, name = "time axis"): Handle {
  const grip = el("div", {
    class: "handle",
    role: "slider",
    tabindex: 0,
    hidden: true,
    "aria-label": `Second start on the ${name}`,
    "aria-orientation": "horizontal",
    "aria-valuemin": 0,
    "aria-valuemax": LONGEST_DELAY_s,
  });
  stage.append(grip);
  let geometry: HandleAxis | null = null;
  listenToPointer(grip, store, () => geometry);
  listenToKeys(grip, store);
  return {
    grip,
    place(next, delay_s) {
      geometry = next;
      const [from, to] = next.xScale.domain();
      grip.hidden = delay_s === null;
      if (delay_s === null) return;
      const inside = Math.min(Math.max(delay_s, from), to);
      const x = next.xScale(inside).toFixed(1);
      grip.style.transform = `translateX(${x}px)`;
      grip.style.top = `${next.plot.top}px`;
      grip.style.height = `${next.height - next.plot.top}px`;
      next.secondStart?.node.setAttribute("transform", `translate(${x},0)`);
      setAttributes(grip, { "aria-valuenow": delay_s, "aria-valuetext": seconds(delay_s) });
    },
  };
}

/** Keys move the handle as a drag does: the cabinet takes the delay over once they are let go. */
function listenToKeys(grip: HTMLElement, store: SessionStore): void {
  const rest = (): void => {
    const { moving_s } = store.get();
    if (moving_s === null) return;
    setDelay(store, moving_s, "handle keys");
    store.set({ moving_s: null });
  };
  grip.addEventListener("keydown", (event) => {
    const from = delayNow_s(store.get());
    const to = from === null ? null : steppedTo(event, from);
    if (to === null) return;
    event.preventDefault();
    store.set({ moving_s: settable(to) });
  });
  grip.addEventListener("keyup", rest);
  grip.addEventListener("blur", () => {
    rest();
    endStep();
  });
}

function steppedTo(event: KeyboardEvent, from: number): number | null {
  const step = event.shiftKey ? COARSE_STEP_s : FINE_STEP_s;
  switch (event.key) {
    case "ArrowRight":
    case "ArrowUp":
      return from + step;
    case "ArrowLeft":
    case "ArrowDown":
      return from - step;
    case "PageUp":
      return from + COARSE_STEP_s;
    case "PageDown":
      return from - COARSE_STEP_s;
    case "Home":
      return 0;
    default:
      return null;
  }
}

const STEPS_s = [0.01, 0.02, 0.05, 0.1, 0.2, 0.5, 1, 2, 5];

/** The time at a place on the axis, in round steps of two pixels or more: nobody aims finer. */
export function snapped({ xScale }: Pick<HandleAxis, "xScale">, x: number): number {
  const twoPixels_s = xScale.invert(x + 2) - xScale.invert(x);
  const step = STEPS_s.find((one) => one >= twoPixels_s) ?? STEPS_s[STEPS_s.length - 1];
  return Math.round(xScale.invert(x) / step) * step;
}

interface Hold {
  readonly pointer: number;
  /** From the pointer to the mark, px. */
  readonly offset: number;
}

function listenToPointer(grip: HTMLElement, store: SessionStore, geometry: () => HandleAxis | null): void {
  let hold: Hold | null = null;
  const xOf = (event: PointerEvent): number =>
    event.clientX - grip.parentElement!.getBoundingClientRect().left;
  grip.addEventListener("pointerdown", (event) => {
    const [now, from] = [geometry(), delayNow_s(store.get())];
    if (event.button !== 0 || now === null || from === null) return;
    hold = { pointer: event.pointerId, offset: xOf(event) - now.xScale(from) };
    grip.setPointerCapture(event.pointerId);
    endStep();
  });
  grip.addEventListener("pointermove", (event) => {
    const now = geometry();
    if (hold === null || now === null || event.pointerId !== hold.pointer) return;
    const x = Math.min(Math.max(xOf(event) - hold.offset, now.plot.left), now.plot.right);
    const moving_s = settable(snapped(now, x));
    if (moving_s !== store.get().moving_s) store.set({ moving_s });
  });
  const release = (event: PointerEvent, keeps: boolean): void => {
    if (hold === null || event.pointerId !== hold.pointer) return;
    hold = null;
    const { moving_s } = store.get();
    if (moving_s === null) return;
    if (keeps) setDelay(store, moving_s);
    store.set({ moving_s: null });
  };
  grip.addEventListener("pointerup", (event) => release(event, true));
  grip.addEventListener("pointercancel", (event) => release(event, false));
  grip.addEventListener("keydown", (event) => {
    if (event.key !== "Escape" || hold === null) return;
    hold = null;
    store.set({ moving_s: null });
  });
}
