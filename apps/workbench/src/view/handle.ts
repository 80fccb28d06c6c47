import type { OverlayGeometry } from "@startgap/figures";
import { el, setAttributes } from "../dom.ts";
import { COARSE_STEP_s, delayNow_s, FINE_STEP_s, LONGEST_DELAY_s, settable } from "../state/delay.ts";
import { endStep } from "../state/history.ts";
import type { SessionStore } from "../state/session.ts";
import { setDelay } from "../state/setDelay.ts";
import { seconds } from "../words.ts";

export interface Handle {
  /** Moves the handle to a delay on an overlay of this geometry; null hides it. */
  place(geometry: OverlayGeometry, delay_s: number | null): void;
}

/**
 * The second motor's start as something to take hold of: a slider for mouse, touch and keys that stands over
 * the mark in the figure. Arrow keys move it finely, with Shift or Page keys coarsely.
 */
export function handleOn(stage: HTMLElement, store: SessionStore): Handle {
  const grip = el("div", {
    class: "handle",
    role: "slider",
    tabindex: 0,
    hidden: true,
    "aria-label": "Second start held back by",
    "aria-orientation": "horizontal",
    "aria-valuemin": 0,
    "aria-valuemax": LONGEST_DELAY_s,
  });
  stage.append(grip);
  let geometry: OverlayGeometry | null = null;
  listenToPointer(grip, store, () => geometry);
  grip.addEventListener("keydown", (event) => {
    const from = delayNow_s(store.get());
    const to = from === null ? null : steppedTo(event, from);
    if (to === null) return;
    event.preventDefault();
    setDelay(store, settable(to), "handle keys");
  });
  grip.addEventListener("blur", endStep);
  return {
    place(next, delay_s) {
      geometry = next;
      grip.hidden = delay_s === null;
      if (delay_s === null) return;
      const { plot, xScale } = next;
      const x = Math.min(Math.max(xScale(delay_s), plot.left), plot.right);
      grip.style.transform = `translateX(${x.toFixed(1)}px)`;
      grip.style.top = `${plot.top}px`;
      grip.style.height = `${next.height - plot.top}px`;
      next.secondStart?.node.setAttribute("transform", `translate(${x.toFixed(1)},0)`);
      setAttributes(grip, { "aria-valuenow": delay_s, "aria-valuetext": seconds(delay_s) });
    },
  };
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

function listenToPointer(
  grip: HTMLElement,
  store: SessionStore,
  geometry: () => OverlayGeometry | null,
): void {
  let held: { readonly pointer: number; readonly offset: number } | null = null;
  const timeAt = (clientX: number): number | null => {
    const now = geometry();
    if (now === null || held === null) return null;
    const x = clientX - grip.parentElement!.getBoundingClientRect().left - held.offset;
    const clamped = Math.min(Math.max(x, now.plot.left), now.plot.right);
    return settable(now.xScale.invert(clamped));
  };
  grip.addEventListener("pointerdown", (event) => {
    const [now, from] = [geometry(), delayNow_s(store.get())];
    if (event.button !== 0 || now === null || from === null) return;
    const x = event.clientX - grip.parentElement!.getBoundingClientRect().left;
    held = { pointer: event.pointerId, offset: x - now.xScale(from) };
    grip.setPointerCapture(event.pointerId);
    endStep();
  });
  grip.addEventListener("pointermove", (event) => {
    if (held === null || event.pointerId !== held.pointer) return;
    const moving_s = timeAt(event.clientX);
    if (moving_s !== null && moving_s !== store.get().moving_s) store.set({ moving_s });
  });
  const release = (event: PointerEvent, keep: boolean): void => {
    if (held === null || event.pointerId !== held.pointer) return;
    held = null;
    const { moving_s } = store.get();
    if (moving_s === null) return;
    if (keep) setDelay(store, moving_s);
    store.set({ moving_s: null });
  };
  grip.addEventListener("pointerup", (event) => release(event, true));
  grip.addEventListener("pointercancel", (event) => release(event, false));
  grip.addEventListener("keydown", (event) => {
    if (event.key !== "Escape" || held === null) return;
    held = null;
    store.set({ moving_s: null });
  });
}
