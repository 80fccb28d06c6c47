import { type DelayMapGeometry, delayMapGeometry, nominalsOf } from "@startgap/figures";
import { delayShown_s, settable } from "../state/delay.ts";
import { endStep } from "../state/history.ts";
import type { Mapped, Session, SessionStore } from "../state/session.ts";
import { setDelay } from "../state/setDelay.ts";
import type { Canvas } from "./figureCard.ts";
import { handleOn, snapped } from "./handle.ts";

/** The delay now set, as a mark on the delay map: worked as the handle on the time axis is; a click moves it there. */
export function mapMark(stage: HTMLElement, store: SessionStore): (session: Session, canvas: Canvas) => void {
  const handle = handleOn(stage, store, "delay map");
  /** The mark ends at the axis. */
  let geometry: DelayMapGeometry | null = null;
  let made: { readonly map: Mapped | null; readonly width: number } | null = null;
  stage.addEventListener("click", (event) => {
    const at_s = geometry === null ? null : delayUnder(event, stage, geometry);
    if (at_s === null || (event.target as Element).closest(".handle")) return;
    endStep();
    setDelay(store, settable(at_s));
  });
  return (session, { width }) => {
    const { map, shown } = session;
    const delays = map?.map ?? null;
    stage.classList.toggle("has-mark", delays !== null);
    if (delays === null || shown === null) {
      if (geometry !== null) handle.place(geometry, null);
      return;
    }
    if (geometry === null || made?.map !== map || made.width !== width) {
      const whole = delayMapGeometry(delays, { width, nominal_V: nominalsOf(shown.check) });
      geometry = { ...whole, height: whole.plot.bottom };
      drawThrough(handle.grip, geometry);
      made = { map, width };
    }
    handle.place(geometry, delayShown_s(session));
  };
}

/** The mark's line, through the panels and not through the words between them. */
function drawThrough({ style }: HTMLElement, { plot, panels }: DelayMapGeometry): void {
  style.backgroundImage = panels.map(() => "linear-gradient(var(--held), var(--held))").join();
  style.backgroundSize = panels.map(({ top, bottom }) => `2px ${bottom - top}px`).join();
  style.backgroundPosition = panels.map(({ top }) => `center ${top - plot.top}px`).join();
}

function delayUnder(
  event: MouseEvent,
  stage: HTMLElement,
  { plot, xScale }: DelayMapGeometry,
): number | null {
  const box = stage.getBoundingClientRect();
  const [x, y] = [event.clientX - box.left, event.clientY - box.top];
  const inside = x >= plot.left && x <= plot.right && y >= plot.top && y <= plot.bottom;
  return inside ? snapped({ xScale }, x) : null;
}
