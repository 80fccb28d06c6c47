/** A start as a scope would show it: voltage and current, their rms, the clamp meter's reading, what happened when. */

import type { ClampReading, WaveQuantity, WaveStudy } from "@startgap/study";
import { scaleLinear } from "d3";
import { axisTitle, levelAxis, levelGrid, ticksOf } from "./axes.ts";
import { appendText, type Page } from "./context.ts";
import { amperes, duration, meltPercent, setting, significant, space, tickTexts } from "./format.ts";
import { describe, type FigureOptions, frame, heightOf, resize } from "./frame.ts";
import { flowKey, keyHeight } from "./series.ts";
import { stack } from "./stack.ts";
import { shorten, textWidth } from "./textWidth.ts";
import { drawClamp, drawEvents, eventsIn } from "./waveMarks.ts";
import {
  drawSentences,
  drawWaves,
  highest,
  sentenceLines,
  sentenceRoom,
  type WaveCurve,
  waveKey,
} from "./waveParts.ts";

export interface WaveformOptions extends FigureOptions {
  /** The part whose voltage and current are drawn; default the supply. */
  readonly part?: string;
  /** The stretch that is drawn; default the whole window of the study. */
  readonly from_s?: number;
  readonly to_s?: number;
}

/**
 * Voltage and current waveforms of one part with their rolling rms laid over them.
 *
 * Where samples exceed pixels the lowest and highest of every pixel are kept, so that no peak is lost.
 *
 * @param page the document to draw in
 * @throws RangeError for a part that the study does not tell, a stretch outside its window, or a size that makes no figure
 */
export function waveform(page: Page, study: WaveStudy, options: WaveformOptions = {}): SVGSVGElement {
  const part = options.part ?? study.traces.columns[0]?.part ?? "";
  const [from, to] = stretchOf(study, options);
  const { root, ink, width, size } = frame(page, options);
  const clamp = clampOf(study, part);
  const lines = sentenceLines(sentencesOf(study, part, clamp), width - size, size);
  const keyRoom = keyHeight(namesOf(), width - size, size);
  const foot = size * 3.4 + sentenceRoom(lines, size);
  const height = heightOf(options, Math.min(width * 0.75, 240 + width * 0.3) + foot + keyRoom);
  const waves = wavesOf(study, part);
  const panelSpecs = waves.map(({ peak }, i) => ({
    share: 1,
    domain: [-1.08 * peak, 1.08 * peak] as const,
    nice: false,
    above: size * (i === 0 ? 3.6 : 2.3),
  }));
  const room = { right: width - size * 1.6, top: keyRoom, bottom: height - foot, size };
  const { panels, plot } = stack(panelSpecs, room);
  const x = scaleLinear([from, to], [plot.left, plot.right]);
  const ticks = ticksOf(x, Math.max(2, (plot.right - plot.left) / (size * 6)), tickTexts);
  const boxes = panels.map(({ box }) => box);
  flowKey(ink, waveKey, size * 0.5, size * 0.2, width - size, size);
  levelGrid(ink, boxes, ticks);
  if (clamp !== null) drawClamp(ink, panels[1], x, clamp);
  const tops = [boxes[0].top - size * 1.3, boxes[1].top];
  panels.forEach((panel, i) => {
    heading(ink, waves[i].heading, part, tops[i], width, size);
    drawWaves(ink, panel, x, study.traces.time_s, waves[i].curves, size);
  });
  drawEvents(ink, eventsIn(study.events, from, to), boxes, x, boxes[0].top - size * 0.5, size);
  levelAxis(ink, plot, ticks, size);
  axisTitle(ink, plot, "time, s", size, plot.bottom + size * 2.9);
  drawSentences(ink, lines, size * 0.5, plot.bottom + size * 3.2, size);
  resize(root, width, height);
  const title = `Voltage and current of ${part} as waves, ${plainTime(from)} to ${plainTime(to)} s`;
  describe(root, options.prefix, title, lines.join(" ").replaceAll(space, " "));
  return root;
}

/** To the tenth of a millisecond, no zeros behind. */
const plainTime = (time_s: number): string => String(Number(time_s.toFixed(4)));

const namesOf = (): string[] => waveKey.map(({ name }) => name);

function stretchOf(study: WaveStudy, options: WaveformOptions): readonly [number, number] {
  const from = Math.max(study.from_s, options.from_s ?? study.from_s);
  const to = Math.min(study.to_s, options.to_s ?? study.to_s);
  if (from < to) return [from, to];
  throw new RangeError(
    `invalid stretch: ${from} s to ${to} s (expected some of ${study.from_s} to ${study.to_s} s)`,
  );
}

function columnOf(study: WaveStudy, part: string, quantity: WaveQuantity): Float64Array {
  const found = study.traces.columns.find((c) => c.part === part && c.quantity === quantity);
  if (found !== undefined) return found.values;
  const known = [...new Set(study.traces.columns.map((c) => c.part))].join(", ");
  throw new RangeError(`invalid part: ${JSON.stringify(part)} (expected one of ${known})`);
}

interface Waves {
  readonly heading: readonly [before: string, after: string];
  readonly peak: number;
  readonly curves: readonly WaveCurve[];
}

/** In a window that begins later than the story, no rms of a whole cycle is known before one has passed. */
function firstRms({ from_s, frequency_Hz, traces: { time_s } }: WaveStudy): number {
  if (from_s === 0) return 0;
  const whole = time_s.findIndex((t) => t >= time_s[0] + 1 / frequency_Hz - 1e-6);
  return whole < 0 ? time_s.length : whole;
}

function wavesOf(study: WaveStudy, part: string): Waves[] {
  const of = (quantity: "voltage" | "current", heading: Waves["heading"]): Waves => {
    const wave = columnOf(study, part, quantity);
    const rms = columnOf(study, part, `rms ${quantity}`);
    const curves = waveKey.map(({ style }, i) =>
      i === 0 ? { values: wave, style, first: 0 } : { values: rms, style, first: firstRms(study) },
    );
    return { heading, peak: highest(wave), curves };
  };
  return [of("voltage", ["Voltage at ", ", V"]), of("current", ["Current into ", ", A"])];
}

/** A clamp reads the line, or a motor. */
function clampOf(study: WaveStudy, part: string): ClampReading | null {
  const readings = [study.line, ...study.motors.map(({ clamp }) => clamp)];
  return readings.find((reading) => reading.part === part) ?? null;
}

function heading(
  ink: SVGElement,
  [before, after]: readonly [string, string],
  part: string,
  top: number,
  width: number,
  size: number,
): void {
  const room = width - size * 1.5 - textWidth(before + after, size, true);
  const words = before + shorten(part, room, size, true) + after;
  appendText(ink, words, { class: "heading", x: size * 0.5, y: top - size * 0.75 });
}

function sentencesOf(study: WaveStudy, part: string, clamp: ClampReading | null): string[] {
  const sentences: string[] = [];
  if (clamp?.from_s !== null && clamp !== null) {
    const reads = `${amperes(clamp.rms_A)} rms, ${amperes(clamp.peak_A)} peak`;
    const when = `over ${duration(clamp.window_s)} from ${setting(clamp.from_s)}`;
    sentences.push(`A clamp meter reads ${reads} ${when} (shaded).`);
  }
  const motor = study.motors.find((one) => one.clamp.part === part);
  if (typeof motor?.firstPeakAsymmetry === "number") {
    const times = significant(motor.firstPeakAsymmetry, 2);
    sentences.push(`First peak ${times} times the symmetrical one.`);
  }
  for (const { part: fuse, from_s, time_s, i2t_A2s, melting_A2s } of study.fuses) {
    const share = meltPercent(i2t_A2s / melting_A2s);
    sentences.push(
      `From ${setting(from_s)} on, ${duration(time_s)} put ${share} of what melts it into ${fuse}.`,
    );
  }
  return sentences;
}
