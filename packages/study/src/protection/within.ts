/** Figures that were multiplied out may stand a hair above the limit that they are equal to. */
const HAIR = 1e-6;

/** True when a value is no larger than a limit. */
export const within = (value: number, limit: number): boolean => value <= limit * (1 + HAIR);
