import type { PartGuard } from "../model.ts";

/** A contact that was told to open carries on until its current next passes zero; the sign it began with, or 0. */
export type Parting = -1 | 0 | 1;

export const signOf = (current: number): Parting => (current > 0 ? 1 : current < 0 ? -1 : 0);

export interface PartingGuards {
  readonly name: string;
  /** The zero that is waited for: none while nothing parts. */
  guards(parting: Parting): readonly PartGuard[];
}

/** An arc does not let go before the zero of its current, and does at it: no restrike, no arc voltage. */
export function partingGuards(name: string): PartingGuards {
  const zero = (direction: PartGuard["direction"]): readonly PartGuard[] => [
    { name, direction, level: false, electrical: true },
  ];
  const [none, falling, rising] = [[], zero("falling"), zero("rising")];
  return { name, guards: (parting) => (parting === 0 ? none : parting > 0 ? falling : rising) };
}
