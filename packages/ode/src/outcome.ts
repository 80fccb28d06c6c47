/** How a run ended. Every ending is a value with its own sentence; none is thrown. */
export type Ending =
  | "finished"
  | "stopped by an event"
  | "cancelled"
  | "endless chatter"
  | "not finite"
  | "too many steps";

export interface Outcome {
  readonly ending: Ending;
  readonly t: number;
  /** One sentence that names the time and the cause. */
  readonly says: string;
}

const seconds = (t: number): string => `${Number(t.toPrecision(6))} s`;

export const finished = (t: number): Outcome => ({
  ending: "finished",
  t,
  says: `Reached ${seconds(t)}.`,
});

export const stopped = (t: number, event: string): Outcome => ({
  ending: "stopped by an event",
  t,
  says: `Stopped at ${seconds(t)}: ${event}.`,
});

export const cancelled = (t: number): Outcome => ({
  ending: "cancelled",
  t,
  says: `Cancelled at ${seconds(t)}.`,
});

export const chattering = (t: number, event: string, count: number): Outcome => ({
  ending: "endless chatter",
  t,
  says: `Gave up at ${seconds(t)}: ${count} events, the last "${event}", and no end to them.`,
});

export const notFinite = (t: number, state: string): Outcome => ({
  ending: "not finite",
  t,
  says: `Gave up at ${seconds(t)}: the rate of change of ${state} is not finite.`,
});

export const tooManySteps = (t: number, tEnd: number, steps: number, state: string): Outcome => ({
  ending: "too many steps",
  t,
  says: `Gave up at ${seconds(t)}: ${steps} steps without reaching ${seconds(tEnd)}; fastest state ${state}.`,
});
