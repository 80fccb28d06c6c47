export { check } from "./check.ts";
export { delayMap } from "./delayMap.ts";
export { isFailure, type StudyFailure } from "./failure.ts";
export { failures } from "./failures/failures.ts";
export type * from "./failures/results.ts";
export type { StudyOptions } from "./options.ts";
export type * from "./results.ts";
export { type InrushStudy, inrush, type SwitchOn } from "./wave/inrush.ts";
export { type WaveOptions, type WaveStudy, wave } from "./wave/wave.ts";
