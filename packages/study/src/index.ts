export { type Besides, besides } from "./besides.ts";
export * from "./cases/index.ts";
export { check } from "./check.ts";
export { type DayOptions, day, dayInSteps } from "./day/day.ts";
export { adiabaticRise_K } from "./day/motorBody.ts";
export type * from "./day/results.ts";
export { delayMap } from "./delayMap.ts";
export { isFailure, type StudyFailure } from "./failure.ts";
export { failures } from "./failures/failures.ts";
export type * from "./failures/results.ts";
export {
  bodyOfMass,
  type Cycle,
  fromTwoReadings,
  riseAfter_K,
  type Swing,
  settledSwing,
  shortTimeFactor,
  windingTemperature_C,
} from "./heat/body.ts";
export { type Cooling, coolingArea_m2, coolingFor, insideRise_K, stackFlow_m3ps } from "./heat/box.ts";
export { type HeatOptions, heat } from "./heat/heat.ts";
export { receiverStarts } from "./heat/receiverStarts.ts";
export type * from "./heat/results.ts";
export { stallTime_s } from "./heat/stall.ts";
export { capacitorStarts, type StartsAllowed, startsAllowed } from "./heat/starts.ts";
export { riseShare } from "./heat/transformerHeat.ts";
export { improve } from "./improve/improve.ts";
export type { CabinetStanding, Improvement, ImproveReport } from "./improve/results.ts";
export type { StudyOptions } from "./options.ts";
export { byDanger, deciding, gravest, gravestOf, gravities, onceEach, unheld, verdicts } from "./order.ts";
export { type NeutralFirst, neutralFirst } from "./protection/neutral.ts";
export { protect } from "./protection/protect.ts";
export type * from "./protection/results.ts";
export { type ShortTime, shortTimeMargin } from "./protection/shortTime.ts";
export type * from "./results.ts";
export { type Staggerer, staggerer } from "./staggerer.ts";
export { type TracedCase, tracesCsv } from "./tracesCsv.ts";
export type { Influence, Spread, VaryReport } from "./vary/results.ts";
export { type VaryOptions, vary } from "./vary/vary.ts";
export type { Agreement } from "./wave/agreement.ts";
export type { AngleTried } from "./wave/angles.ts";
export { type InrushStudy, inrush, type SwitchOn } from "./wave/inrush.ts";
export type { ClampReading, FirstCycles, MotorStartReading } from "./wave/readings.ts";
export type { WaveColumn, WaveQuantity, WaveTraces } from "./wave/traces.ts";
export { type WaveOptions, type WaveStudy, wave } from "./wave/wave.ts";
export { longestWindow_s } from "./wave/window.ts";
