/** Where the panels of an overlay stand: one under another over one time axis. */

import { max, min, type ScaleLinear, scaleLinear } from "d3";
import { type Box, type Tick, ticksOf } from "./axes.ts";
import { tickTexts } from "./format.ts";
import type { Content } from "./overlaySelection.ts";
import { type Panel, stack } from "./stack.ts";

export interface OverlayPanel extends Panel {
  readonly content: Content;
  /** What the values are multiplied by to be drawn: percent of nominal, or 1. */
  readonly factor: number;
}

export interface OverlayLayout {
  readonly width: number;
  readonly height: number;
  readonly size: number;
  readonly plot: Box;
  readonly x: ScaleLinear<number, number>;
  readonly xTicks: readonly Tick[];
  readonly panels: readonly OverlayPanel[];
}

export interface OverlaySpan {
  readonly from_s: number;
  readonly to_s: number;
}

/** Shares of the height, by quantity. */
const share = { voltage: 3, current: 2, speed: 2, "melt fraction": 1.6, "coil voltage": 2 };

/** Lines of text above a panel and beneath the last one, in em. */
const headingRoom = 2.3;
const footRoom = 5;

/** Height that an overlay asks for. */
export function wantedHeight(width: number, panels: number): number {
  return Math.round(Math.min(width * 0.3, 90 + width * 0.08) * Math.max(panels, 1) + 90);
}

/**
 * @param keyRoom  room above the first panel for a key, px
 * @param inVolts  voltages in V instead of in percent of nominal
 */
export function layoutOf(
  contents: readonly Content[],
  span: OverlaySpan,
  width: number,
  height: number,
  size: number,
  keyRoom: number,
  inVolts: boolean,
): OverlayLayout {
  const specs = contents.map((content, i) => ({
    share: share[content.quantity],
    domain: domainOf(content, factorOf(content, inVolts)),
    nice: content.quantity !== "melt fraction",
    above: headingRoom * size + (i === 0 ? keyRoom : 0),
  }));
  const { panels, plot } = stack(specs, {
    right: width - size * 1.3,
    top: 0,
    bottom: height - footRoom * size,
    size,
  });
  const x = scaleLinear([span.from_s, span.to_s], [plot.left, plot.right]);
  const xTicks = ticksOf(x, Math.max(2, (plot.right - plot.left) / (size * 6.5)), tickTexts);
  const filled = panels.map((panel, i) => ({
    ...panel,
    content: contents[i],
    factor: factorOf(contents[i], inVolts),
  }));
  return { width, height, size, plot, x, xTicks, panels: filled };
}

function factorOf({ quantity, nominal_V }: Content, inVolts: boolean): number {
  if (quantity === "melt fraction") return 100;
  return quantity === "voltage" && nominal_V !== null && !inVolts ? 100 / nominal_V : 1;
}

/** Voltages from where the last band begins or lower, all else from zero; never less than the curves fill. */
function domainOf({ quantity, nominal_V, curves, also }: Content, factor: number): [number, number] {
  const lows = curves.map(({ values, first }) => min(drawn(values, first)) ?? 0);
  const highs = curves.map(({ values, first }) => max(drawn(values, first)) ?? 0);
  const [low, high] = [Math.min(...lows, ...also) * factor, Math.max(...highs, ...also) * factor];
  if (quantity === "melt fraction") return [0, Math.max(105, high)];
  if (quantity !== "voltage") return [Math.min(0, low), Math.max(high * 1.04, 1e-3)];
  const whole = nominal_V === null ? high : nominal_V * factor;
  return [Math.min(low, whole * 0.76), Math.max(high, whole * 1.02)];
}

function drawn(values: ArrayLike<number>, first: number): Float64Array {
  return (values as Float64Array).subarray(first);
}
