/** What a story does to a circuit: when each delay relay and each motor's own contact closes. */
export interface Script {
  /** Delay of a relay, given what its file states; Infinity: never closes. */
  delay_s(relay: string, stated_s: number): number;
  /** When a motor's own isolating contact closes; 0: closed from the start; Infinity: never. */
  connects_s(motor: string): number;
}

/** The circuit as its file states it: every relay with its own delay, every motor connected. */
export const asStated: Script = { delay_s: (_, stated_s) => stated_s, connects_s: () => 0 };
