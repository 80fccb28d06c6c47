/** One panel of an overlay: bands, grid, curves and their words. */

import type { CaseName } from "@startgap/study";
import { type Box, uprightAxis } from "./axes.ts";
import { append, appendText, appendTitle } from "./context.ts";
import { type Profile, placeLabels, profileOf, type Wanted } from "./labels.ts";
import type { OverlayLayout, OverlayPanel } from "./overlayLayout.ts";
import type { Curve } from "./overlaySelection.ts";
import { caseWords, decisiveSample, headingOf, valueWords } from "./overlayWords.ts";
import { pathOf, polyline, type Stretch } from "./polyline.ts";
import { shorten, textWidth } from "./textWidth.ts";
import { drawBands, type VoltageBand } from "./voltageBands.ts";

export interface PanelOptions {
  readonly inVolts: boolean;
  readonly bands: readonly VoltageBand[];
  /** Whether curves are named by their case, or by their figure alone because there is a key. */
  readonly named: boolean;
}

/** Draw a panel's curves and their words; returns the cases whose curves could not be named. */
export function drawCurves(
  parent: SVGElement,
  panel: OverlayPanel,
  layout: OverlayLayout,
  options: PanelOptions,
  taken: readonly Box[],
): CaseName[] {
  const drawn = panel.content.curves.map((curve) => stretchesOf(curve, panel, layout));
  drawn.forEach((stretches, i) => {
    append(parent, "path", { class: `curve ${panel.content.curves[i].case}`, d: pathOf(stretches) });
  });
  const profiles = drawn.map((stretches) => profileOf(stretches, panel.box));
  return drawLabels(parent, panel, layout, options, profiles, taken);
}

/** Draw what lies behind the curves and the grid; returns boxes that words must keep clear of. */
export function drawGround(
  parent: SVGElement,
  panel: OverlayPanel,
  layout: OverlayLayout,
  options: PanelOptions,
): Box[] {
  const { box, content, factor, y } = panel;
  const nominal = content.nominal_V;
  const voltage = content.quantity === "voltage" && nominal !== null;
  const scale = (fraction: number) => y(fraction * (nominal ?? 1) * factor);
  const words = voltage ? drawBands(parent, options.bands, box, scale, layout.size * 0.9) : [];
  uprightAxis(parent, box, panel.ticks, layout.size);
  if (content.quantity === "melt fraction") words.push(...meltLine(parent, panel, layout.size));
  return words;
}

function meltLine(parent: SVGElement, { box, y }: OverlayPanel, size: number): Box[] {
  const at = y(100);
  const [x, small] = [box.right - size * 0.4, size * 0.9];
  append(parent, "path", { class: "limit", d: `M${box.left},${at}H${box.right}` });
  appendText(parent, "melts", {
    class: "soft",
    "font-size": small,
    "text-anchor": "end",
    x,
    y: at + size * 1.05,
  });
  const words = { left: x - size * 2.6, right: x, top: at, bottom: at + size * 1.3 };
  return [words, { ...box, top: at - 1, bottom: at + 1 }];
}

function stretchesOf(curve: Curve, { factor, y }: OverlayPanel, { x }: OverlayLayout): Stretch[] {
  const [from, to] = x.domain();
  return polyline(curve, from, to, x, factor === 1 ? y : (value) => y(value * factor));
}

/** Heading over a panel, its part's name shortened to leave the kept room; returns where it ends, px. */
export function drawHeading(
  parent: SVGElement,
  panel: OverlayPanel,
  layout: OverlayLayout,
  inVolts: boolean,
  kept = 0,
): number {
  const [before, part, after] = headingOf(panel.content, inVolts);
  const size = layout.size;
  const room = layout.width - size * 1.5 - kept - textWidth(before + after, size, true);
  const short = shorten(part, room, size, true);
  const words = before + short + after;
  const text = appendText(parent, words, { class: "heading", x: size * 0.5, y: panel.box.top - size * 0.75 });
  if (short !== part) appendTitle(text, before + part + after);
  return size * 0.5 + textWidth(words, size, true);
}

interface Label extends Wanted {
  readonly text: string;
  readonly case: CaseName;
}

function drawLabels(
  parent: SVGElement,
  panel: OverlayPanel,
  layout: OverlayLayout,
  options: PanelOptions,
  profiles: readonly Profile[],
  taken: readonly Box[],
): CaseName[] {
  const labels = panel.content.curves
    .flatMap((curve, i) => labelOf(curve, i, panel, layout, options))
    .reverse();
  const height = layout.size * 1.05;
  const places = placeLabels(profiles, labels, panel.box, height, taken);
  return labels.flatMap(({ text, case: name }, i) => {
    const place = places[i];
    if (place === null) return [name];
    const at = { x: (place.left + place.right) / 2, y: place.bottom - height * 0.22 };
    appendText(parent, text, { class: `strong ${name}-words`, "text-anchor": "middle", ...at });
    return [];
  });
}

/** Speeds are named by their motor, in the last case drawn alone; all else by case and decisive figure. */
function labelOf(
  curve: Curve,
  index: number,
  panel: OverlayPanel,
  { x, size }: OverlayLayout,
  { inVolts, named }: PanelOptions,
): Label[] {
  const { content } = panel;
  const [from, to] = x.domain();
  const speeds = content.quantity === "speed";
  const sample = speeds ? halfway(curve, from, to) : decisiveSample(curve, content.quantity, from, to);
  if (sample === -1) return [];
  if (speeds && curve.case !== content.curves[content.curves.length - 1].case) return [];
  const figure = valueWords(curve.values[sample], content, inVolts);
  const name = () =>
    shorten(curve.part, Math.min(size * 14, (panel.box.right - panel.box.left) * 0.4), size, true);
  const text = speeds ? name() : named ? `${caseWords[curve.case]} ${figure}` : figure;
  const about = { x: x(curve.time_s[sample]), y: panel.y(curve.values[sample] * panel.factor) };
  return [{ text, case: curve.case, curve: index, width: textWidth(text, size, true), about }];
}

/** The sample at which a speed first comes to half of its highest: where several motors stand furthest apart. */
function halfway(curve: Curve, from_s: number, to_s: number): number {
  const peak = decisiveSample(curve, "speed", from_s, to_s);
  let i = curve.first;
  while (i < peak && (curve.time_s[i] < from_s || curve.values[i] < 0.5 * curve.values[peak])) i += 1;
  return Math.min(i, peak);
}
