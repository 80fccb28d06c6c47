import type { Event, Guard } from "@startgap/ode";
import type { PartGuard } from "./model.ts";

/** One entry a part, then one a control and a coil: each that one's own frozen data. */
export type Mode = readonly unknown[];

/** What a model of either resolution raises. */
interface Raising {
  guards(mode: unknown): readonly PartGuard[];
  scheduled(mode: unknown): readonly Event[];
}

export interface Watching<P> {
  readonly guards: readonly Guard[];
  /** The parts that watch something, and the index of each one's first guard value. */
  readonly owners: readonly P[];
  readonly offsets: readonly number[];
  readonly electrical: boolean;
}

/** The guards of a mode, made once a mode. */
export function guardTable<P extends Raising>(models: readonly P[]): (mode: Mode) => Watching<P> {
  let last: Mode | null = null;
  let table: Watching<P> = { guards: [], owners: [], offsets: [], electrical: false };
  return (mode) => {
    if (mode === last) return table;
    const lists = models.map((model, i) => model.guards(mode[i]));
    const owners = models.filter((_, i) => lists[i].length > 0);
    const offsets: number[] = [];
    let count = 0;
    for (const list of lists) {
      if (list.length > 0) offsets.push(count);
      count += list.length;
    }
    const electrical = lists.some((list) => list.some((guard) => guard.electrical));
    table = { guards: lists.flat(), owners, offsets, electrical };
    last = mode;
    return table;
  };
}

/** The part an event belongs to; event names are "part: what", and what never holds a colon. */
export function ownerOf(event: Event, parts: ReadonlyMap<string, number>): number {
  const part = parts.get(event.name.slice(0, event.name.lastIndexOf(": ")));
  if (part === undefined) throw new RangeError(`invalid event: "${event.name}" (no part raises it)`);
  return part;
}

/** True when the part's mode can still raise the event. */
export function raises(model: Raising, event: Event, mode: unknown): boolean {
  const named = ({ name }: { readonly name: string }): boolean => name === event.name;
  return model.guards(mode).some(named) || model.scheduled(mode).some(named);
}
