/** Logarithmic axes: decades drawn strong, their multiples faint. */

import type { ScaleLogarithmic } from "d3";
import { type Box, levelAxis, type Tick } from "./axes.ts";
import { append, appendText } from "./context.ts";
import { logTickText } from "./format.ts";
import { level, upright } from "./path.ts";

interface LogTicks {
  readonly named: Tick[];
  readonly all: number[];
}

/** Every whole multiple of a power of ten; named are the decades, and 2 and 5 when there is room. */
function logTicks(scale: ScaleLogarithmic<number, number>, room: number): LogTicks {
  const [from, to] = scale.domain();
  const all = multiples(from, to);
  const [a, b] = scale.range();
  const decade = Math.abs(b - a) / Math.log10(to / from);
  const digits = decade > room * 4 ? [1, 2, 5] : [1];
  const named = all.filter((tick) =>
    digits.includes(Math.round(tick / 10 ** Math.floor(Math.log10(tick) + 1e-9))),
  );
  return {
    named: named.map((tick) => ({ at: scale(tick), text: logTickText(tick) })),
    all: all.map((tick) => scale(tick)),
  };
}

/** Whole multiples of powers of ten between two values. */
function multiples(from: number, to: number): number[] {
  const out: number[] = [];
  for (let power = Math.floor(Math.log10(from)); power <= Math.ceil(Math.log10(to)); power += 1)
    for (let digit = 1; digit <= 9; digit += 1) {
      const value = digit * 10 ** power;
      if (value >= from * (1 - 1e-9) && value <= to * (1 + 1e-9)) out.push(value);
    }
  return out;
}

export function logAxes(
  parent: SVGElement,
  box: Box,
  x: ScaleLogarithmic<number, number>,
  y: ScaleLogarithmic<number, number>,
  size: number,
): void {
  const [across, up] = [logTicks(x, size * 2.5), logTicks(y, size * 1.5)];
  const faint = across.all.map((at) => upright(at, box));
  const levels = up.all.map((at) => level(at, box));
  append(parent, "path", { class: "grid faint", d: [...faint, ...levels].join("") });
  const strong = [
    ...across.named.map(({ at }) => upright(at, box)),
    ...up.named.map(({ at }) => level(at, box)),
  ];
  append(parent, "path", { class: "grid", d: strong.join("") });
  for (const { at, text } of up.named)
    appendText(parent, text, {
      class: "soft",
      "text-anchor": "end",
      x: box.left - size * 0.5,
      y: at + size * 0.35,
    });
  levelAxis(parent, box, across.named, size);
}
