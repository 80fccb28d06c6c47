/** The figures of a report: each with a sentence that says what to see in it. */

import type { MotorParameters } from "@startgap/circuit";
import { type CaseReport, deciding } from "@startgap/study";
import { delayMap } from "../delayMap.ts";
import { dipLength, dipMap } from "../dipMap.ts";
import { percent, setting, significant, volts } from "../format.ts";
import type { FigureOptions } from "../frame.ts";
import { overlay } from "../overlay.ts";
import { singleLine } from "../singleLine.ts";
import { timeCurrent } from "../timeCurrent.ts";
import { timeCurrentOf } from "../timeCurrentOf.ts";
import { torqueSpeed } from "../torqueSpeed.ts";
import { lowestVoltageOf, torqueSpeedOf } from "../torqueSpeedOf.ts";
import { whereTheVoltsGo } from "../whereTheVoltsGo.ts";
import type { ReportInput } from "./input.ts";
import { listed } from "./words.ts";

export interface Picture {
  readonly caption: string;
  readonly draw: (options: FigureOptions) => SVGSVGElement;
}

const sketch = ({ page, cabinet, check }: ReportInput): Picture => ({
  caption:
    "The cabinet from the supply down, each part with its gravest findings. Bond and ground points are not known here.",
  draw: (options) => singleLine(page, cabinet.circuit.parts, deciding(check.report), options),
});

const keeps = ({ worst }: CaseReport): string =>
  worst === null ? "" : `${volts(worst.voltage_V)} of ${volts(worst.nominal_V)} at ${worst.point}`;

/** Before and after in one sentence: what the worst point keeps with the delay and without. */
function overlayCaption({ report: { cases } }: ReportInput["check"]): string {
  const shows = "Volts, amperes, speeds and fuse heating of every case on one time axis";
  const together = cases.find((one) => one.case === "together");
  const held = cases.find((one) => one.case === "staggered");
  if (together === undefined || held === undefined || keeps(together) === "" || keeps(held) === "")
    return `${shows}.`;
  return `${shows}: all at once leaves ${keeps(together)}, held back ${setting(held.delay_s)} leaves ${keeps(held)}.`;
}

const story = ({ page, check, measured }: ReportInput): Picture => ({
  caption: overlayCaption(check) + (measured?.length ? " Dots are readings taken on site." : ""),
  draw: (options) => overlay(page, check, { ...options, measured }).node,
});

function map({ page, cabinet, check }: ReportInput): Picture[] {
  if (check.map === null || check.map.delay_s.length === 0) return [];
  const { map: delays } = check;
  const { shortest_s, knee_s } = delays.advice;
  const passes =
    shortest_s === null
      ? "No delay tried passes"
      : `Every delay from ${significant(shortest_s, 2)} s on passes`;
  const knee = knee_s === null ? "" : `; past ${setting(knee_s)} a longer one gains next to nothing`;
  return [
    {
      caption: `What holding the second motor back gains, delay by delay. ${passes}${knee}.`,
      draw: (options) => delayMap(page, delays, { ...options, nominal_V: cabinet.nominalVoltage_V }),
    },
  ];
}

/** What the deepest dip leads to, in the caption's words. */
function dipped({ page, dips }: ReportInput): Picture[] {
  if (dips === undefined) return [];
  const shows = "What follows a dip of the line, by what is left of the voltage and how long it lasts";
  const [deepest] = dips.edges;
  const both = deepest.changes.find(({ after }) => after === "together");
  const past = deepest.changes.find(({ before }) => before === "together");
  const until = past === undefined ? " on" : ` to ${dipLength(past.at_s)}`;
  const told =
    both === undefined
      ? ""
      : `: without any voltage for ${dipLength(both.at_s)}${until} all motors restart together`;
  return [
    {
      caption: `${shows}${deepest.left === 0 ? told : ""}.${dips.changes.map((change) => ` ${change}`).join("")}`,
      draw: (options) => dipMap(page, dips, options),
    },
  ];
}

function volt({ page, check: { report } }: ReportInput): Picture[] {
  const lossy = report.cases.filter(({ worst }) => worst !== null);
  if (lossy.length === 0) return [];
  return [
    {
      caption:
        "Where the volts go at the worst moment of each case: the longest piece is the one to shorten first.",
      draw: (options) => whereTheVoltsGo(page, report.cases, options),
    },
  ];
}

/** How much the current could grow in the case that is run, for the caption. */
function marginWords(fuse: string, cases: readonly CaseReport[]): string {
  const told = cases.find((one) => one.case === "staggered") ?? cases[0];
  const own = told?.fuses.find(({ part }) => part === fuse);
  if (own === undefined || own.currentMargin === null) return "";
  return ` As run it comes ${percent(Math.min(own.meltFraction, 1))} of the way to melting; the current could be ${significant(own.currentMargin, 2)} times as large.`;
}

const fuses = ({ page, cabinet, check }: ReportInput): Picture[] =>
  cabinet.circuit.parts.flatMap((part) => {
    const input = part.is === "fuse" ? timeCurrentOf(part, check) : null;
    if (input === null) return [];
    const caption = `${part.name}: how long each current flows or is exceeded in every case, against its melting band.`;
    return [
      {
        caption: caption + marginWords(part.name, check.report.cases),
        draw: (options: FigureOptions) => timeCurrent(page, input, options),
      },
    ];
  });

interface Motors {
  readonly motor: MotorParameters;
  readonly lowest_V: number | null;
  /** Others of the same make, at no lower voltage. */
  readonly others: readonly string[];
}

/** Motors of the same make are drawn once: the one that sees the lowest voltage. */
function motorsOf({ cabinet, check }: ReportInput): Motors[] {
  const makes = new Map<string, Motors[]>();
  for (const motor of cabinet.circuit.parts) {
    if (motor.is !== "motor") continue;
    const make = JSON.stringify([motor.machine, motor.drives]);
    const own = { motor, lowest_V: lowestVoltageOf(motor.name, check.report), others: [] };
    makes.set(make, [...(makes.get(make) ?? []), own]);
  }
  return [...makes.values()].map((same) => {
    const at = ({ lowest_V }: Motors): number => lowest_V ?? Number.POSITIVE_INFINITY;
    const [first, ...rest] = [...same].sort((a, b) => at(a) - at(b));
    return { ...first, others: rest.map(({ motor }) => motor.name) };
  });
}

const motors = (input: ReportInput): Picture[] =>
  motorsOf(input).map(({ motor, lowest_V, others }) => ({
    caption:
      `${motor.name}: torque and current over speed, at rated voltage and at the lowest that it sees in any case, against its load.` +
      (others.length === 0 ? "" : ` The same motor and load: ${listed(others)}, at no lower voltage.`),
    draw: (options) => torqueSpeed(input.page, torqueSpeedOf(motor, lowest_V), options),
  }));

/** Every figure that this cabinet has, the sketch first. */
export const picturesOf = (input: ReportInput): Picture[] => [
  sketch(input),
  story(input),
  ...map(input),
  ...dipped(input),
  ...volt(input),
  ...fuses(input),
  ...motors(input),
];
