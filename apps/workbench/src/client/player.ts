import { el, say, setAttributes } from "../dom.ts";

export interface Player {
  readonly root: HTMLElement;
  /** The stretch of time that is played, from 0. */
  setEnd(end_s: number): void;
  time(): number;
}

/** Time that runs when it is told to: play and pause, and a slider to go anywhere. Nothing moves by itself. */
export function playerOf(onTime: (t: number) => void): Player {
  let [t, end_s, playing, last] = [0, 15, false, 0];
  const button = el("button", { type: "button" }, "Play");
  const slider = el("input", {
    type: "range",
    min: 0,
    step: 0.02,
    value: 0,
    "aria-label": "Time after the first start",
  });
  const words = el("output", {}, "0.0 s");
  const show = (next: number): void => {
    t = Math.min(end_s, Math.max(0, next));
    slider.value = String(t);
    slider.setAttribute("aria-valuetext", `${t.toFixed(1)} seconds`);
    say(words, `${t.toFixed(1)} s`);
    onTime(t);
  };
  const pause = (): void => {
    playing = false;
    say(button, "Play");
  };
  const tick = (now: number): void => {
    if (!playing) return;
    show(t + Math.min(0.1, (now - last) / 1000));
    last = now;
    if (t >= end_s) pause();
    else requestAnimationFrame(tick);
  };
  button.addEventListener("click", () => {
    if (playing) return pause();
    playing = true;
    say(button, "Pause");
    if (t >= end_s) show(0);
    last = performance.now();
    requestAnimationFrame(tick);
  });
  slider.addEventListener("input", () => {
    pause();
    show(slider.valueAsNumber);
  });
  heedReducedMotion(button, pause);
  return {
    root: el("div", { class: "player" }, button, slider, words),
    setEnd(next) {
      end_s = next;
      setAttributes(slider, { max: next });
      show(t);
    },
    time: () => t,
  };
}

/** Where less motion is asked for, time moves by the slider alone. */
function heedReducedMotion(button: HTMLButtonElement, pause: () => void): void {
  const query = matchMedia("(prefers-reduced-motion: reduce)");
  const heed = (): void => {
    button.hidden = query.matches;
    if (query.matches) pause();
  };
  query.addEventListener("change", heed);
  heed();
}
