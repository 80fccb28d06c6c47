/** Panels one under another over one level axis. */

import { type ScaleLinear, scaleLinear } from "d3";
import { type Box, type Tick, tickRoom, ticksOf } from "./axes.ts";
import { tickTexts } from "./format.ts";

export interface PanelSpec {
  /** Share of the free height. */
  readonly share: number;
  readonly domain: readonly [number, number];
  /** Whether the domain may be widened to whole ticks. */
  readonly nice: boolean;
  /** Room above the panel for its heading and a key, px. */
  readonly above: number;
}

export interface Panel {
  readonly box: Box;
  readonly y: ScaleLinear<number, number>;
  readonly ticks: readonly Tick[];
}

/** The space that a stack may fill, px; its left edge leaves room for the words of the widest axis. */
export interface Space {
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
  readonly size: number;
}

export function stack(specs: readonly PanelSpec[], space: Space): { panels: Panel[]; plot: Box } {
  const { right, size } = space;
  const total = specs.reduce((sum, { share }) => sum + share, 0);
  const free = space.bottom - space.top - specs.reduce((sum, { above }) => sum + above, 0);
  let top = space.top;
  const panels = specs.map((spec) => {
    const start = top + spec.above;
    top = start + Math.max(1, (free * spec.share) / total);
    return panelOf(spec, { left: 0, right, top: start, bottom: top }, size);
  });
  const left = Math.ceil(Math.max(size * 2.5, ...panels.map(({ ticks }) => tickRoom(ticks, size))));
  const plot = { left, right, top: panels[0]?.box.top ?? space.top, bottom: top };
  return { panels: panels.map((panel) => ({ ...panel, box: { ...panel.box, left } })), plot };
}

function panelOf({ domain, nice }: PanelSpec, box: Box, size: number): Panel {
  const y = scaleLinear(domain, [box.bottom, box.top]);
  const count = Math.max(2, (box.bottom - box.top) / (size * 2.6));
  if (nice) y.nice(count);
  return { box, y, ticks: ticksOf(y, count, tickTexts) };
}
