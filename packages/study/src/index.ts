export { check } from "./check.ts";
export { delayMap } from "./delayMap.ts";
export { isFailure, type StudyFailure } from "./failure.ts";
export type { StudyOptions } from "./options.ts";
export type * from "./results.ts";
