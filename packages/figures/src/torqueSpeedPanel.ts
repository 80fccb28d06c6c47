/** One panel of a torque-speed plot. */

import { bisectLeft, type ScaleLinear } from "d3";
import { type Box, uprightAxis } from "./axes.ts";
import { append, appendText } from "./context.ts";
import { drawNamedCurves, type Label } from "./namedCurves.ts";
import { upright } from "./path.ts";
import { polyline } from "./polyline.ts";
import type { Panel } from "./stack.ts";

export interface SpeedLine {
  readonly says: string;
  readonly class: string;
  readonly at: readonly number[];
  readonly values: readonly number[];
  /** Where the motor comes to stay, and in what words; null when not known. */
  readonly settles: { readonly rpm: number; readonly says: string; readonly stuck: boolean } | null;
}

interface PanelOptions {
  readonly switchOpens_rpm: number | null;
  /** The switch is named in the first panel alone. */
  readonly first: boolean;
  readonly size: number;
}

type Speeds = ScaleLinear<number, number>;

export function drawSpeedPanel(
  parent: SVGElement,
  lines: readonly SpeedLine[],
  panel: Panel,
  x: Speeds,
  { switchOpens_rpm, first, size }: PanelOptions,
): void {
  const { box, y, ticks } = panel;
  const [from, to] = x.domain();
  uprightAxis(parent, box, ticks, size);
  const opens = switchOpens_rpm === null ? null : x(switchOpens_rpm);
  const taken = opens === null ? [] : drawSwitch(parent, opens, box, first, size);
  const curves = lines.map(({ at, values, class: kind }) => ({
    class: kind,
    stretches: polyline({ time_s: at, values, first: 0 }, from, to, x, y),
  }));
  const labels = lines.flatMap((line, curve) => labelsOf(line, curve, panel, x, size));
  drawNamedCurves(parent, curves, labels, box, size, () => taken);
  for (const { settles, at, values } of lines)
    if (settles !== null)
      drawDot(parent, x(settles.rpm), y(valueAt(at, values, settles.rpm)), settles.stuck, size);
}

/** Where it settles first, then its name about a quarter of the way. */
function labelsOf(
  { says, at, values, settles }: SpeedLine,
  curve: number,
  { y }: Panel,
  x: Speeds,
  size: number,
): Label[] {
  const quarter = Math.floor(values.length / 4);
  const labels: Label[] = [];
  if (settles !== null) {
    const about = { x: x(settles.rpm), y: y(valueAt(at, values, settles.rpm)) };
    labels.push({ curve, says: settles.says, class: settles.stuck ? "fail" : "", about, reach: 5 * size });
  }
  if (values.length > 0)
    labels.push({ curve, says, class: "", about: { x: x(at[quarter]), y: y(values[quarter]) } });
  return labels;
}

function valueAt(at: readonly number[], values: readonly number[], rpm: number): number {
  const i = Math.min(bisectLeft(at as number[], rpm), at.length - 1);
  if (i === 0 || at[i] === at[i - 1]) return values[i];
  return values[i - 1] + ((values[i] - values[i - 1]) * (rpm - at[i - 1])) / (at[i] - at[i - 1]);
}

/** An open dot, crossed when the motor is stuck. */
function drawDot(parent: SVGElement, cx: number, cy: number, stuck: boolean, size: number): void {
  append(parent, "circle", { class: stuck ? "outline fail-stroke" : "outline", cx, cy, r: size * 0.35 });
}

/** Returns boxes that words must keep clear of. */
function drawSwitch(parent: SVGElement, x: number, box: Box, named: boolean, size: number): Box[] {
  append(parent, "path", { class: "limit", d: upright(x, box) });
  const line = { ...box, left: x - 2, right: x + 2 };
  if (!named) return [line];
  const at = { "text-anchor": "end", x: x - size * 0.4, y: box.top + size };
  appendText(parent, "switch opens", { class: "soft", "font-size": size * 0.9, ...at });
  return [line, { left: x - size * 6, right: x, top: box.top, bottom: box.top + size * 1.2 }];
}
