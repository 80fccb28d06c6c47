/** One promise that a standard makes for every fuse of a class. */
export interface Gate {
  /** "carries" and "melts not before" bind the fast edge of the band, "opens by" the slow one. */
  readonly says: "carries" | "melts not before" | "opens by";
  readonly current_A: number;
  /** Infinity: for ever. */
  readonly time_s: number;
  /** Standard and table, and whether it was read or is from memory. */
  readonly clause: string;
}

const MINUTE_S = 60;
const HOUR_S = 3600;

/** Longest time to open at 200 % and at 135 % of the rating, up to each rating. */
const OPENING = [
  { upTo_A: 30, at200_s: 2 * MINUTE_S, at135_s: HOUR_S },
  { upTo_A: 60, at200_s: 4 * MINUTE_S, at135_s: HOUR_S },
  { upTo_A: 100, at200_s: 6 * MINUTE_S, at135_s: 2 * HOUR_S },
  { upTo_A: 200, at200_s: 8 * MINUTE_S, at135_s: 2 * HOUR_S },
  { upTo_A: 400, at200_s: 10 * MINUTE_S, at135_s: 2 * HOUR_S },
  { upTo_A: 600, at200_s: 12 * MINUTE_S, at135_s: 2 * HOUR_S },
] as const;

/** What a North American class promises beyond the general opening times. */
export interface NorthAmericanClass {
  readonly standard: string;
  readonly most_A: number;
  /** Multiple of the rating that it carries for ever. */
  readonly carries: number;
  /** Shortest melting time of the time-delay kind at a multiple of the rating. */
  readonly delay: { readonly multiple: 2 | 5; readonly least_s: (rating_A: number) => number };
}

const twelveSeconds = { multiple: 2, least_s: () => 12 } as const;
const tenSeconds = { multiple: 5, least_s: () => 10 } as const;
/** 8 s for the small 250 V bodies; taken for 600 V ones too, whose 10 s is only safer for hold. */
const tenOrEightSeconds = { multiple: 5, least_s: (rating_A: number) => (rating_A <= 30 ? 8 : 10) } as const;

/** UL 248 / CSA C22.2 No. 248 series; the classes that a small cabinet meets. */
export const NORTH_AMERICAN = {
  plug: { standard: "UL 248-11 (from memory)", most_A: 30, carries: 1.1, delay: twelveSeconds },
  CC: { standard: "UL 248-4", most_A: 30, carries: 1.1, delay: twelveSeconds },
  G: { standard: "UL 248-5 (from memory)", most_A: 60, carries: 1.1, delay: twelveSeconds },
  J: { standard: "UL 248-8 (from memory)", most_A: 600, carries: 1.1, delay: tenSeconds },
  RK1: { standard: "UL 248-12 (from memory)", most_A: 600, carries: 1.1, delay: tenOrEightSeconds },
  RK5: { standard: "UL 248-12 (from memory)", most_A: 600, carries: 1.1, delay: tenOrEightSeconds },
  K: { standard: "UL 248-9", most_A: 600, carries: 1.1, delay: tenOrEightSeconds },
  H: { standard: "UL 248-6 (number from memory)", most_A: 600, carries: 1.1, delay: tenOrEightSeconds },
  supplementary: {
    standard: "UL 248-14 (delay from memory)",
    most_A: 60,
    carries: 1,
    delay: { multiple: 2, least_s: (rating_A: number) => (rating_A <= 3 ? 5 : 12) },
  },
} as const satisfies Record<string, NorthAmericanClass>;

export type NorthAmericanName = keyof typeof NORTH_AMERICAN;

/** Longest opening times of every class at 200 % and 135 %: UL 248-1, tables of opening times (from memory). */
export function openingTimes(rating_A: number): { readonly at200_s: number; readonly at135_s: number } {
  return OPENING.find(({ upTo_A }) => rating_A <= upTo_A) ?? OPENING[OPENING.length - 1];
}

/**
 * The gates of a North American class at one rating.
 *
 * @param name class
 * @param rating_A above 0, up to the largest of the class
 * @param timeDelay true for the time-delay kind
 */
export function northAmericanGates(name: NorthAmericanName, rating_A: number, timeDelay: boolean): Gate[] {
  const { standard, carries, delay }: NorthAmericanClass = NORTH_AMERICAN[name];
  const { at200_s, at135_s } = openingTimes(rating_A);
  const general = "UL 248-1, opening times (from memory)";
  const gates: Gate[] = [
    { says: "carries", current_A: carries * rating_A, time_s: Number.POSITIVE_INFINITY, clause: standard },
    { says: "opens by", current_A: 1.35 * rating_A, time_s: at135_s, clause: general },
    { says: "opens by", current_A: 2 * rating_A, time_s: at200_s, clause: general },
  ];
  if (timeDelay)
    gates.push({
      says: "melts not before",
      current_A: delay.multiple * rating_A,
      time_s: delay.least_s(rating_A),
      clause: `${standard}, time delay`,
    });
  return gates;
}
