/** One panel of an overlay: bands, grid, curves and their words. */

import type { CaseName } from "@startgap/study";
import { appendText, appendTitle } from "./context.ts";
import { drawNamedCurves, type Label } from "./namedCurves.ts";
import { nameGround, type PanelOptions } from "./overlayGround.ts";
import type { OverlayLayout, OverlayPanel } from "./overlayLayout.ts";
import type { Curve } from "./overlaySelection.ts";
import { caseWords, decisiveSample, headingOf, valueWords } from "./overlayWords.ts";
import { polyline, type Stretch } from "./polyline.ts";
import { drawStoryMarks, markBoxes, storyMarks } from "./storyMarks.ts";
import { shorten, textWidth } from "./textWidth.ts";

/** Draw a panel's curves and their words; returns the cases whose curves could not be named. */
export function drawCurves(
  parent: SVGElement,
  panel: OverlayPanel,
  layout: OverlayLayout,
  options: PanelOptions,
): CaseName[] {
  const { curves } = panel.content;
  const drawn = curves.map((curve) => ({ class: curve.case, stretches: stretchesOf(curve, panel, layout) }));
  const marks = storyMarks(options.stories, panel, layout);
  const names = curves.flatMap((curve, i) => labelOf(curve, i, panel, layout, options)).reverse();
  const labels = [...marks, ...names];
  const placed = drawNamedCurves(parent, drawn, labels, panel.box, layout.size, (profiles) => [
    ...options.taken,
    ...markBoxes(marks, layout.size),
    ...nameGround(parent, panel, layout, options, profiles),
  ]);
  drawStoryMarks(parent, marks, layout.size);
  return names.flatMap(({ curve }, i) => (placed[marks.length + i] ? [] : [curves[curve].case]));
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
  const says = speeds ? name() : named ? `${caseWords[curve.case]} ${figure}` : figure;
  const about = { x: x(curve.time_s[sample]), y: panel.y(curve.values[sample] * panel.factor) };
  const alike = speeds ? content.curves.flatMap(({ part }, i) => (part === curve.part ? [i] : [])) : [];
  return [{ curve: index, says, class: `${curve.case}-words`, about, alike }];
}

/** The sample at which a speed first comes to half of its highest: where several motors stand furthest apart. */
function halfway(curve: Curve, from_s: number, to_s: number): number {
  const peak = decisiveSample(curve, "speed", from_s, to_s);
  let i = curve.first;
  while (i < peak && (curve.time_s[i] < from_s || curve.values[i] < 0.5 * curve.values[peak])) i += 1;
  return Math.min(i, peak);
}
