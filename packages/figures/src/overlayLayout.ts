/** Where the panels of an overlay stand: one under another over one time axis. */

import { max, min, type ScaleLinear, scaleLinear } from "d3";
import { type Box, type Tick, tickRoom, ticksOf } from "./axes.ts";
import { tickTexts } from "./format.ts";
import type { Content } from "./overlaySelection.ts";

export interface OverlayPanel {
  readonly content: Content;
  /** What the values are multiplied by to be drawn: percent of nominal, or 1. */
  readonly factor: number;
  readonly box: Box;
  readonly y: ScaleLinear<number, number>;
  readonly ticks: readonly Tick[];
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
  const total = contents.reduce((sum, { quantity }) => sum + share[quantity], 0);
  const free = height - keyRoom - (headingRoom * contents.length + footRoom) * size;
  let top = keyRoom;
  const panels = contents.map((content) => {
    const tall = (free * share[content.quantity]) / total;
    const box = { left: 0, right: width - size * 1.3, top: top + headingRoom * size, bottom: 0 };
    top = box.top + tall;
    return panelOf(content, { ...box, bottom: top }, size, inVolts);
  });
  const left = Math.ceil(Math.max(size * 2.5, ...panels.map(({ ticks }) => tickRoom(ticks, size))));
  const plot = { left, right: width - size * 1.3, top: keyRoom + headingRoom * size, bottom: top };
  const x = scaleLinear([span.from_s, span.to_s], [plot.left, plot.right]);
  const xTicks = ticksOf(x, Math.max(2, (plot.right - left) / (size * 6.5)), tickTexts);
  return {
    width,
    height,
    size,
    plot,
    x,
    xTicks,
    panels: panels.map((panel) => ({ ...panel, box: { ...panel.box, left } })),
  };
}

function panelOf(content: Content, box: Box, size: number, inVolts: boolean): OverlayPanel {
  const factor = factorOf(content, inVolts);
  const y = scaleLinear(domainOf(content, factor), [box.bottom, box.top]);
  const count = Math.max(2, (box.bottom - box.top) / (size * 2.6));
  if (content.quantity !== "melt fraction") y.nice(count);
  return { content, factor, box, y, ticks: ticksOf(y, count, tickTexts) };
}

function factorOf({ quantity, nominal_V }: Content, inVolts: boolean): number {
  if (quantity === "melt fraction") return 100;
  return quantity === "voltage" && nominal_V !== null && !inVolts ? 100 / nominal_V : 1;
}

/** Voltages from where the last band begins or lower, all else from zero; never less than the curves fill. */
function domainOf({ quantity, nominal_V, curves }: Content, factor: number): [number, number] {
  const lows = curves.map(({ values, first }) => min(drawn(values, first)) ?? 0);
  const highs = curves.map(({ values, first }) => max(drawn(values, first)) ?? 0);
  const [low, high] = [Math.min(...lows) * factor, Math.max(...highs) * factor];
  if (quantity === "melt fraction") return [0, Math.max(105, high)];
  if (quantity !== "voltage") return [Math.min(0, low), Math.max(high * 1.04, 1e-3)];
  const whole = nominal_V === null ? high : nominal_V * factor;
  return [Math.min(low, whole * 0.76), Math.max(high, whole * 1.02)];
}

function drawn(values: ArrayLike<number>, first: number): Float64Array {
  return (values as Float64Array).subarray(first);
}
