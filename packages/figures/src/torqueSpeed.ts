/** Torque and current of a motor against speed, at nominal and at sagged voltage, with what its load asks. */

import { max, scaleLinear } from "d3";
import { axisTitle, levelAxis, levelGrid, ticksOf } from "./axes.ts";
import { appendText, type Page } from "./context.ts";
import { amperes, newtonMetres, space, speed, tickTexts } from "./format.ts";
import { describe, type FigureOptions, frame, heightOf, resize } from "./frame.ts";
import { type LoadCurve, type SpeedCurve, settlingSpeed_rpm } from "./settlingSpeed.ts";
import { type Panel, stack } from "./stack.ts";
import { shorten, textWidth } from "./textWidth.ts";
import { drawSpeedPanel, type SpeedLine } from "./torqueSpeedPanel.ts";

export interface TorqueSpeedInput {
  readonly part: string;
  readonly nominal: SpeedCurve;
  readonly sagged: SpeedCurve | null;
  readonly load: LoadCurve;
  /** Speed at which the start switch opens; null without one. */
  readonly switchOpens_rpm: number | null;
}

/**
 * Torque and current against speed.
 *
 * @param page  the document to draw in
 * @throws RangeError for a width or height that makes no figure
 */
export function torqueSpeed(page: Page, input: TorqueSpeedInput, options: FigureOptions = {}): SVGSVGElement {
  const { root, ink, width, size } = frame(page, options);
  const height = heightOf(options, Math.min(width * 1.1, 260 + width * 0.35));
  const lines = [torqueLines(input), currentLines(input)];
  const space = { right: width - size * 1.6, top: 0, bottom: height - size * 3.4, size };
  const { panels, plot } = stack(lines.map(specOf(size)), space);
  const x = scaleLinear([0, max(input.nominal.speed_rpm) ?? 1], [plot.left, plot.right]);
  const ticks = ticksOf(x, Math.max(2, (plot.right - plot.left) / (size * 6)), tickTexts);
  const boxes = panels.map(({ box }) => box);
  levelGrid(ink, boxes, ticks);
  drawHeading(ink, ["Torque of ", input.part, `, N${" "}m`], panels[0], width, size);
  drawHeading(ink, ["Current of ", input.part, ", A"], panels[1], width, size);
  for (const [i, panel] of panels.entries())
    drawSpeedPanel(ink, lines[i], panel, x, { switchOpens_rpm: input.switchOpens_rpm, first: i === 0, size });
  levelAxis(ink, plot, ticks, size);
  axisTitle(ink, plot, "speed, rpm", size, plot.bottom + size * 2.9);
  resize(root, width, height);
  describe(root, options.prefix, `Torque and current of ${input.part} against speed`, summaryOf(input));
  return root;
}

const specOf = (size: number) => (lines: readonly SpeedLine[], i: number) => ({
  share: i === 0 ? 3 : 2,
  domain: [0, Math.max(...lines.map(({ values }) => max(values) ?? 0), 1e-3) * 1.1] as const,
  nice: true,
  above: size * 2.3,
});

const curvesOf = ({ nominal, sagged }: TorqueSpeedInput) => [
  { curve: nominal, class: "nominal" },
  ...(sagged === null ? [] : [{ curve: sagged, class: "sagged" }]),
];

function torqueLines(input: TorqueSpeedInput): SpeedLine[] {
  const { load, switchOpens_rpm } = input;
  const motor = curvesOf(input).map(({ curve, class: kind }) => {
    const rpm = settlingSpeed_rpm(curve, load);
    const stuck = rpm !== null && switchOpens_rpm !== null && rpm < switchOpens_rpm;
    const settles =
      rpm === null ? null : { rpm, says: `${stuck ? "stuck at" : "runs at"} ${speed(rpm)}`, stuck };
    return { says: curve.says, class: kind, at: curve.speed_rpm, values: curve.torque_Nm, settles };
  });
  const asked = {
    says: "load asks",
    class: "load",
    at: load.speed_rpm,
    values: load.torque_Nm,
    settles: null,
  };
  return [...motor, asked];
}

function currentLines(input: TorqueSpeedInput): SpeedLine[] {
  return curvesOf(input).map(({ curve, class: kind }) => ({
    says: curve.says,
    class: kind,
    at: curve.speed_rpm,
    values: curve.current_A,
    settles: null,
  }));
}

function drawHeading(
  ink: SVGElement,
  [before, part, after]: readonly [string, string, string],
  { box }: Panel,
  width: number,
  size: number,
): void {
  const room = width - size * 1.5 - textWidth(before + after, size, true);
  const words = before + shorten(part, room, size, true) + after;
  appendText(ink, words, { class: "heading", x: size * 0.5, y: box.top - size * 0.75 });
}

function summaryOf({ nominal, sagged, load }: TorqueSpeedInput): string {
  const curves = [nominal, ...(sagged === null ? [] : [sagged])];
  const sentences = curves.map((curve) => {
    const settles = settlingSpeed_rpm(curve, load);
    const start = `${newtonMetres(curve.torque_Nm[0])} and ${amperes(curve.current_A[0])} at rest`;
    return `${curve.says}: ${start}${settles === null ? "" : `, comes to ${speed(settles)}`}.`;
  });
  return sentences.join(" ").replaceAll(space, " ");
}
