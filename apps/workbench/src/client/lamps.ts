import type { CaseName } from "@startgap/study";
import { el, fill, freshId, say } from "../dom.ts";
import { lightOf } from "./light.ts";

const svg = "http://www.w3.org/2000/svg";

function draw(
  name: string,
  attributes: Readonly<Record<string, string | number>>,
  ...children: SVGElement[]
): SVGElement {
  const element = document.createElementNS(svg, name);
  for (const [key, value] of Object.entries(attributes)) element.setAttribute(key, String(value));
  element.append(...children);
  return element;
}

/** A lamp to be shown: what it stands for, and its light along the story. */
export interface LampStory {
  readonly title: string;
  readonly case: CaseName;
  readonly light: Float32Array;
  readonly dimmest: number;
}

export interface Lamps {
  readonly root: HTMLElement;
  /** Shows other lamps from now on. */
  take(stories: readonly LampStory[]): void;
  /** How bright they are at a time. */
  light(t: number): void;
}

interface Lamp {
  readonly root: HTMLElement;
  light(t: number): void;
}

/** A lamp for every way of starting, side by side, each over a strip that shows its light along the whole story. */
export function lampsView(): Lamps {
  const root = el("div", { class: "lamps" });
  let lamps: readonly Lamp[] = [];
  return {
    root,
    take(stories) {
      lamps = stories.map(lampOf);
      fill(root, ...lamps.map((lamp) => lamp.root));
    },
    light(t) {
      for (const lamp of lamps) lamp.light(t);
    },
  };
}

function lampOf({ title, case: name, light, dimmest }: LampStory): Lamp {
  const glow = draw("circle", { cx: 60, cy: 54, r: 50, class: "lamp-glow" });
  const bulb = draw("circle", { cx: 60, cy: 54, r: 30, class: "lamp-bulb" });
  const glass = draw("circle", { cx: 60, cy: 54, r: 30, class: "lamp-glass" });
  const cap = draw("path", { d: "M50,84h20M51,91h18M53,98h14", class: "lamp-cap" });
  const picture = draw(
    "svg",
    { viewBox: "0 0 120 120", class: "lamp", "aria-hidden": "true" },
    glow,
    glass,
    bulb,
    cap,
  );
  const words = el("p", { class: "lamp-words" });
  const root = el(
    "figure",
    { class: `lamp-figure ${name}` },
    el("figcaption", {}, title),
    picture,
    words,
    stripOf(light),
    el("p", { class: "soft" }, `At its dimmest ${Math.round(100 * dimmest)} % of its light.`),
  );
  return {
    root,
    light(t) {
      const now = Math.min(1, lightOf(light, t));
      bulb.setAttribute("fill-opacity", now.toFixed(3));
      glow.setAttribute("fill-opacity", (0.45 * now).toFixed(3));
      say(words, `${Math.round(100 * lightOf(light, t))} % of its light`);
    },
  };
}

const STOPS = 160;

/** The light along the whole story as a bar, darker where the lamp is: for paper, and for those who want no motion. */
function stripOf(light: Float32Array): HTMLElement {
  const id = freshId("light");
  const stops = Array.from({ length: STOPS }, (_, i) => {
    const part = light.subarray(
      Math.floor((i * light.length) / STOPS),
      Math.floor(((i + 1) * light.length) / STOPS),
    );
    const least = part.reduce((a, b) => Math.min(a, b), 1);
    return draw("stop", {
      offset: (i / (STOPS - 1)).toFixed(4),
      class: "lamp-stop",
      "stop-opacity": least.toFixed(3),
    });
  });
  const strip = draw(
    "svg",
    { viewBox: "0 0 100 10", class: "light-strip", preserveAspectRatio: "none", "aria-hidden": "true" },
    draw("linearGradient", { id }, ...stops),
    draw("rect", { width: 100, height: 10, fill: `url(#${id})` }),
  );
  return el("div", { class: "strip" }, strip);
}
