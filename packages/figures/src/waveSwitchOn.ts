/** The worst switch-on of a transformer: the first cycles of its current, its harmonics, and what the fuses take. */

import type { InrushStudy } from "@startgap/study";
import { scaleLinear } from "d3";
import { axisTitle, type Box, levelAxis, levelGrid, ticksOf, uprightAxis } from "./axes.ts";
import { append, appendText, type Page } from "./context.ts";
import { amperes, meltPercent, percent, space, tickTexts } from "./format.ts";
import { describe, type FigureOptions, frame, heightOf, resize } from "./frame.ts";
import { level } from "./path.ts";
import { type Panel, stack } from "./stack.ts";
import { textWidth } from "./textWidth.ts";
import { drawSentences, drawWaves, highest, sentenceLines, sentenceRoom } from "./waveParts.ts";

/** Cycles that are drawn. */
const shown_cycles = 6;

/**
 * @param page the document to draw in
 * @throws RangeError for a width or height that makes no figure
 */
export function switchOn(page: Page, study: InrushStudy, options: FigureOptions = {}): SVGSVGElement {
  const { root, ink, width, size } = frame(page, options);
  const lines = sentenceLines(sentencesOf(study), width - size, size);
  const foot = size * 3.4 + sentenceRoom(lines, size);
  const between = size * 3.4;
  const height = heightOf(options, Math.min(width * 0.7, 220 + width * 0.3) + foot + between);
  const current = study.traces.columns.find(({ quantity }) => quantity === "current");
  const values = current?.values ?? new Float64Array(0);
  const [low, high] = spanOf(values);
  const { panels } = stack(
    [
      { share: 3, domain: [low, high], nice: true, above: size * 2.3 },
      { share: 2, domain: [0, harmonicTop(study)], nice: true, above: between + size * 2.3 },
    ],
    { right: width - size * 1.6, top: 0, bottom: height - foot, size },
  );
  const [wave, bars] = panels;
  const x = scaleLinear([0, shown_cycles / study.frequency_Hz], [wave.box.left, wave.box.right]);
  const ticks = ticksOf(x, Math.max(2, (wave.box.right - wave.box.left) / (size * 6)), tickTexts);
  headings(ink, panels, size);
  levelGrid(ink, [wave.box], ticks);
  drawWaves(ink, wave, x, study.traces.time_s, [{ values, style: 0 }], size);
  levelAxis(ink, wave.box, ticks, size);
  axisTitle(ink, wave.box, "time, s", size, wave.box.bottom + size * 2.9);
  drawHarmonics(ink, study, bars, size);
  drawSentences(ink, lines, size * 0.5, bars.box.bottom + size * 3.2, size);
  resize(root, width, height);
  describe(
    root,
    options.prefix,
    "Worst switch-on of the transformers",
    lines.join(" ").replaceAll(space, " "),
  );
  return root;
}

function spanOf(values: Float64Array): readonly [number, number] {
  let [low, high] = [0, 0];
  for (const value of values) [low, high] = [Math.min(low, value), Math.max(high, value)];
  const margin = 0.05 * highest(values);
  return [low < 0 ? low - margin : 0, high + margin];
}

const harmonicTop = ({ harmonics_A }: InrushStudy): number => highest(harmonics_A) * 1.05;

function headings(ink: SVGElement, [wave, bars]: readonly Panel[], size: number): void {
  const at = (panel: Panel) => ({ class: "heading", x: size * 0.5, y: panel.box.top - size * 0.75 });
  appendText(ink, "Current of the line, A", at(wave));
  appendText(ink, "Harmonics of the first cycle, A", at(bars));
}

/** A bar an order from 0, the mean, on; its number beneath. */
function drawHarmonics(
  ink: SVGElement,
  { harmonics_A }: InrushStudy,
  { box, y, ticks }: Panel,
  size: number,
): void {
  uprightAxis(ink, box, ticks, size);
  const step = (box.right - box.left) / harmonics_A.length;
  harmonics_A.forEach((value, order) => {
    const middle = box.left + (order + 0.5) * step;
    const top = y(value);
    const bar = { x: middle - step * 0.3, y: top, width: step * 0.6, height: Math.max(0, box.bottom - top) };
    append(ink, "rect", { class: "part1-fill", ...bar });
    const name = order === 0 && textWidth("mean", size) < step ? "mean" : String(order);
    const words = { class: "soft", "text-anchor": "middle", x: middle, y: box.bottom + size * 1.35 };
    appendText(ink, name, words);
  });
  append(ink, "path", { class: "rule", d: level(box.bottom, box) });
  orderTitle(ink, box, size);
}

const orderTitle = (ink: SVGElement, box: Box, size: number): void =>
  axisTitle(ink, box, "order (0: mean)", size, box.bottom + size * 2.9);

function sentencesOf({ worst, harmonics_A, finding }: InrushStudy): string[] {
  const { angle_deg, residual, loads, peak_A } = worst;
  const first = Math.max(harmonics_A[1] ?? 0, 1e-9);
  const with_ = loads ? "with the loads on" : "alone";
  const flux = `${percent(Math.abs(residual))} of nominal flux left in the core`;
  return [
    `Worst: ${with_}, at ${angle_deg} degrees of the voltage, ${flux}: first peak ${amperes(peak_A)}.`,
    `Second harmonic ${percent((harmonics_A[2] ?? 0) / first)}, mean ${percent(harmonics_A[0] / first)} of the first.`,
    ...(finding === null
      ? []
      : [`${finding.part}: one switch-on is ${meltPercent(finding.value)} of the way to melting.`]),
  ];
}
