export { crossing, SAME_MOMENT_s } from "./locate.ts";
export type { Ending, Outcome } from "./outcome.ts";
export type { Event, Flow, Guard, Jump, Plant, Rest } from "./plant.ts";
export { type Columns, columns, type Recorder } from "./record.ts";
export { type Run, type RunOptions, run, type Standing } from "./run.ts";
export type { Counts } from "./settings.ts";
