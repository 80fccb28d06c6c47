/** Where the panels of a delay map stand. */

import type { DelayMap } from "@startgap/study";
import { max, min, type ScaleLinear, scaleLinear } from "d3";
import { type Box, type Tick, ticksOf } from "./axes.ts";
import type { MapPanel } from "./delayMapPanels.ts";
import { tickTexts } from "./format.ts";
import { endRoom, keyHeight } from "./series.ts";
import { type Panel, stack } from "./stack.ts";

export interface PlacedPanel extends MapPanel, Panel {
  /** Room that the key above the panel takes, px; 0 when curves are named at their ends. */
  readonly key: number;
}

export interface MapLayout {
  readonly panels: readonly PlacedPanel[];
  readonly plot: Box;
  readonly x: ScaleLinear<number, number>;
  readonly xTicks: readonly Tick[];
  /** Room for names at the ends of the curves, px; 0 when there are keys instead. */
  readonly room: number;
  readonly keyWidth: number;
}

/** Below this width, px, curves are named in a key above their panel instead of at their ends. */
const narrow = 640;
const headingRoom = 2.3;

const namesOf = (panel: MapPanel) => panel.series.map(({ name }) => name);

const keyOf = (panel: MapPanel, width: number, size: number) =>
  width < narrow ? keyHeight(namesOf(panel), width - size, size) : 0;

/** Height that the panels ask for, px. */
export function wantedPanelsHeight(panels: readonly MapPanel[], width: number, size: number): number {
  const each = Math.min(width * 0.26, 60 + width * 0.08);
  return panels.reduce((sum, panel) => sum + each + headingRoom * size + keyOf(panel, width, size), 0);
}

/** @param bottom  lower edge of the last panel, px */
export function mapLayout(
  panels: readonly MapPanel[],
  map: DelayMap,
  width: number,
  bottom: number,
  size: number,
): MapLayout {
  const room = width < narrow ? 0 : endRoom(panels.flatMap(namesOf), width * 0.2, size);
  const keys = panels.map((panel) => keyOf(panel, width, size));
  const specs = panels.map((panel, i) => ({
    share: panel.quantity === "voltage" ? 3 : 2,
    domain: domainOf(panel),
    nice: true,
    above: headingRoom * size + keys[i],
  }));
  const stacked = stack(specs, { right: width - Math.max(room, size * 1.3), top: 0, bottom, size });
  const { plot } = stacked;
  const x = scaleLinear(delaysOf(map), [plot.left, plot.right]);
  const xTicks = ticksOf(x, Math.max(2, (plot.right - plot.left) / (size * 5.5)), tickTexts);
  const placed = panels.map((panel, i) => ({ ...panel, ...stacked.panels[i], key: keys[i] }));
  return { panels: placed, plot, x, xTicks, room, keyWidth: width - size };
}

function delaysOf({ delay_s }: DelayMap): [number, number] {
  const [first, last] = [delay_s[0] ?? 0, delay_s[delay_s.length - 1] ?? 1];
  return [first, last > first ? last : first + 1];
}

function domainOf({ quantity, series, faint }: MapPanel): [number, number] {
  const values = [...series, ...faint].flatMap((one) => one.values.filter((value) => value !== null));
  const [low, high] = [min(values) ?? 0, max(values) ?? 1];
  if (quantity === "voltage") return [Math.min(low, 76), Math.max(high, 100)];
  return quantity === "melt" ? [0, Math.max(high, 100)] : [0, Math.max(high * 1.05, 0.1)];
}
