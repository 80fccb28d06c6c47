import type { Place } from "./conventions.ts";

/** On-delay: its contact closes `delay_s` after it is energised; loses the count after `reset_s` without. */
export interface DelayRelayParameters extends Place {
  readonly is: "delay relay";
  readonly delay_s: number;
  readonly reset_s: number;
}
