import { USUAL_CALLS } from "./calls.ts";
import type { Told } from "./course.ts";

const ALWAYS: readonly string[] = [
  "Time constants, densities of start windings and losses of fuses, coils and relays are usual values, not this cabinet's.",
  "Air follows a cosine over the day, coldest at 3 h and warmest at 15 h; the day begins with motors as cold as it.",
];

/** What was assumed for the day, in plain words. */
export function notesOf({ cabinet, supplied, bodies, options }: Told): string[] {
  const assumed = bodies.motors.filter((b) => b.assumed).map(({ part }) => part);
  return [
    ...demandNotes(supplied.from, options.callsPerHour ?? USUAL_CALLS.perHour),
    ...(cabinet.enclosure === null
      ? ['The file has no "enclosure": fuses and transformers are taken to stand in the open.']
      : []),
    ...(assumed.length === 0
      ? []
      : [
          `${assumed.join(", ")}: without a plate, what it loses running is taken to bring it to its rated rise.`,
        ]),
    ...ALWAYS,
  ];
}

function demandNotes(from: Told["supplied"]["from"], perHour: number): string[] {
  if (from === "assumed")
    return [
      "The file states no demand: half of what the compressors deliver is taken from 7 to 17 h, a tenth (leaks) else; common practice, no source.",
    ];
  if (from === "calls")
    return [
      `No pressure switch calls in this file: ${perHour} calls an hour are taken, each for half of its time; common practice, no source.`,
    ];
  return [];
}
