/** Every figure of the package drawn from the same test data. */

import {
  dayFigure,
  delayMap,
  dipMap,
  type FigureOptions,
  nominalsOf,
  overlay,
  type Page,
  singleLine,
  switchOn,
  timeCurrent,
  torqueSpeed,
  waveform,
  whereTheVoltsGo,
} from "../src/index.ts";
import { exampleDay } from "./days.ts";
import { exampleDips } from "./dipMaps.ts";
import { exampleCabinet, exampleFuse, exampleMotor } from "./plots.ts";
import { exampleCheck, type Setup } from "./stories.ts";
import { exampleInrush, exampleWave } from "./waves.ts";

export type FigureName =
  | "overlay"
  | "delayMap"
  | "timeCurrent"
  | "torqueSpeed"
  | "whereTheVoltsGo"
  | "singleLine"
  | "waveform"
  | "switchOn"
  | "dipMap"
  | "day";

export function everyFigure(
  page: Page,
  setup: Partial<Setup>,
  options: FigureOptions,
): Record<FigureName, SVGSVGElement> {
  const check = exampleCheck(setup);
  const { parts, findings } = exampleCabinet(setup);
  return {
    overlay: overlay(page, check, options).node,
    delayMap: delayMap(page, check.map!, { ...options, nominal_V: nominalsOf(check) }),
    timeCurrent: timeCurrent(page, exampleFuse(setup), options),
    torqueSpeed: torqueSpeed(page, exampleMotor(setup.motors?.[0]), options),
    whereTheVoltsGo: whereTheVoltsGo(page, check.report.cases, options),
    singleLine: singleLine(page, parts, findings, options),
    waveform: waveform(page, exampleWave(setup), options),
    switchOn: switchOn(page, exampleInrush(setup), options),
    dipMap: dipMap(page, exampleDips(), options),
    day: dayFigure(page, exampleDay(setup), options),
  };
}
