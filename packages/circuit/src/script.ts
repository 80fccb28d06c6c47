/** From this moment on the supply stands at `factor` times its stated open-circuit voltage. */
export interface VoltageStep {
  readonly at_s: number;
  readonly factor: number;
}

/** What a story does to a circuit: when relays and motors close, what the supply does, and what has failed. */
export interface Script {
  /** Delay of a relay, given what its file states; Infinity: never closes. */
  delay_s(relay: string, stated_s: number): number;
  /** When a motor's own isolating contact closes; 0: closed from the start; Infinity: never. */
  connects_s(motor: string): number;
  /** When a motor's own isolating contact opens again; never when silent. */
  opens_s?(motor: string): number;
  /** Ascending in time; a step at 0 s or before is in force from the start. Steady when silent. */
  readonly supply?: readonly VoltageStep[];
  /** A contact that has failed: of a contactor, relay, switch or timer, or the start switch of a motor. */
  stuck?(part: string): "open" | "closed" | null;
  /** True: the rotor is held still. */
  held?(motor: string): boolean;
  /** What stands on a compressor's pistons from here on; null leaves it as it is. */
  head?(motor: string): "vented" | "loaded" | null;
}

/** The circuit as its file states it: every relay with its own delay, every motor connected. */
export const asStated: Script = { delay_s: (_, stated_s) => stated_s, connects_s: () => 0 };

/** A mode with the failure that the script asks of its part, and without one that it does not ask. */
export function stuckBy<S extends { readonly stuck?: "open" | "closed" }>(
  mode: S,
  script: Script,
  part: string,
): S {
  const stuck = script.stuck?.(part) ?? undefined;
  return stuck === mode.stuck ? mode : { ...mode, stuck };
}
