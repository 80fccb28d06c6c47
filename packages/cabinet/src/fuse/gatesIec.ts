import type { Gate } from "./gates.ts";

/** One row of the gG gates: currents in A, pre-arcing I^2 t at 0.01 s in A^2 s. */
export interface GgRow {
  readonly rating_A: number;
  readonly least10s_A: number;
  readonly most5s_A: number;
  readonly least100ms_A: number;
  readonly most100ms_A: number;
  readonly least_A2s: number;
  readonly most_A2s: number;
}

const GG_CLAUSE = "IEC 60269-1, gates of gG fuse-links (from memory)";
const GG_CONVENTIONAL = "IEC 60269-1, conventional times and currents of gG (from memory)";
const AM_CLAUSE = "IEC 60269-1, gates of aM fuse-links (from memory)";

/** IEC 60269-1, table of gates for gG (from memory; its 1.6 : 1 discrimination identity is a test). */
export const GG_ROWS: readonly GgRow[] = [
  [16, 33, 65, 85, 150, 300, 1000],
  [20, 42, 85, 110, 200, 500, 1800],
  [25, 52, 110, 150, 260, 1000, 3000],
  [32, 75, 150, 200, 350, 1800, 5000],
  [40, 95, 190, 260, 450, 3000, 9000],
  [50, 125, 250, 350, 610, 5000, 16000],
  [63, 160, 320, 450, 820, 9000, 27000],
  [80, 215, 425, 610, 1100, 16000, 46000],
  [100, 290, 580, 820, 1450, 27000, 86000],
].map(([rating_A, least10s_A, most5s_A, least100ms_A, most100ms_A, least_A2s, most_A2s]) => ({
  rating_A,
  least10s_A,
  most5s_A,
  least100ms_A,
  most100ms_A,
  least_A2s,
  most_A2s,
}));

/** The short time at which the pre-arcing I^2 t of gG is stated. */
export const GG_SHORT_S = 0.01;
/** Multiples of the rating that gG carries, and opens at, for the conventional time; 16 A and above. */
export const GG_HOLDS = 1.25;
export const GG_FUSES = 1.6;

/** 1 h to 63 A, 2 h above. */
export function conventionalTime_s(rating_A: number): number {
  return rating_A <= 63 ? 3600 : 7200;
}

/** The gates of one gG rating. */
export function ggGates(row: GgRow): Gate[] {
  const hour_s = conventionalTime_s(row.rating_A);
  const gate = (says: Gate["says"], current_A: number, time_s: number, clause = GG_CLAUSE): Gate => ({
    says,
    current_A,
    time_s,
    clause,
  });
  return [
    gate("carries", GG_HOLDS * row.rating_A, hour_s, GG_CONVENTIONAL),
    gate("opens by", GG_FUSES * row.rating_A, hour_s, GG_CONVENTIONAL),
    gate("melts not before", row.least10s_A, 10),
    gate("opens by", row.most5s_A, 5),
    gate("melts not before", row.least100ms_A, 0.1),
    gate("opens by", row.most100ms_A, 0.1),
    gate("melts not before", Math.sqrt(row.least_A2s / GG_SHORT_S), GG_SHORT_S),
    gate("opens by", Math.sqrt(row.most_A2s / GG_SHORT_S), GG_SHORT_S),
  ];
}

/** The gates of aM, a motor-circuit fuse that guards against short circuits alone: multiples of the rating. */
export function amGates(rating_A: number): Gate[] {
  const gate = (says: Gate["says"], multiple: number, time_s: number): Gate => ({
    says,
    current_A: multiple * rating_A,
    time_s,
    clause: AM_CLAUSE,
  });
  return [
    gate("melts not before", 4, 60),
    gate("melts not before", 8, 0.5),
    gate("melts not before", 10, 0.2),
    gate("opens by", 6.3, 60),
    gate("opens by", 12.5, 0.5),
    gate("opens by", 19, 0.1),
  ];
}
