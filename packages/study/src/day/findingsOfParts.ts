import { FUSE_MARGIN } from "../limits.ts";
import type { ProtectionFinding } from "../protection/results.ts";
import type { Verdict } from "../results.ts";
import { clock, degrees, percent, ratio } from "../words.ts";
import type { DayFuse, DayReceiver } from "./results.ts";

const changeOf = (melted: boolean, margin: number | null): string =>
  melted || margin === null
    ? "Cool the box, ease the start, or let it start less often; `startgap protect` tells which ratings hold and protect."
    : `The current could only be ${ratio(margin)} times as large: cool the box, start less often, or ease the start.`;

/** A fuse's worst start of the day; none without a start. */
export function fuseFinding({ part, worst, mildest, melted_s }: DayFuse): ProtectionFinding[] {
  if (worst === null || mildest === null) return [];
  const margin = worst.meltFraction > 0 ? 1 / Math.sqrt(worst.meltFraction) : null;
  const holds = margin === null || margin >= FUSE_MARGIN.pass;
  const outcome: Verdict = melted_s !== null ? "fail" : holds ? "pass" : "caution";
  const share = (m: number): string => percent(100 * m);
  const says =
    melted_s !== null
      ? `${part}: melts at ${clock(melted_s)}, in air of ${degrees(worst.air_C)}.`
      : `${part}: the start at ${clock(worst.at_s)} brings it ${share(worst.meltFraction)} of the way to melting in air of ${degrees(worst.air_C)}, the mildest ${share(mildest.meltFraction)} at ${degrees(mildest.air_C)}.`;
  return [
    {
      finding: "fuse over the day",
      part,
      outcome,
      gravity: "stops work",
      value: margin,
      limit: FUSE_MARGIN.pass,
      unit: "",
      basis: `${FUSE_MARGIN.basis}; melting currents by the air, ${share(worst.factor)} there: common practice, no source (from memory)`,
      says,
      change: holds && melted_s === null ? null : changeOf(melted_s !== null, margin),
    },
  ];
}

/** A pressure this far below its cut-in says that the compressors do not keep up. */
const KEEPS_UP = 0.9;

const kPa = (p: number): string => `${Math.round(p / 1000)} kPa`;

/** A receiver with a switch: whether its air lasts, and whether its relief valve has to help. */
export function receiverFindings(r: DayReceiver): ProtectionFinding[] {
  if (r.band_Pa === null) return [];
  const [cutIn, cutOut] = r.band_Pa;
  const base = { part: r.part, gravity: "stops work", unit: "kPa" } as const;
  const lasts = r.lowest.value >= KEEPS_UP * cutIn;
  const air: ProtectionFinding = {
    ...base,
    finding: "air lasts",
    outcome: r.ranEmpty_s !== null ? "fail" : lasts ? "pass" : "caution",
    value: r.lowest.value / 1000,
    limit: (KEEPS_UP * cutIn) / 1000,
    basis: "common practice, no source: a tenth below its cut-in says that more is drawn than comes",
    says:
      r.ranEmpty_s === null
        ? `${r.part}: its pressure stays between ${kPa(r.lowest.value)} and ${kPa(r.highest.value)}.`
        : `${r.part}: runs empty at ${clock(r.ranEmpty_s)}.`,
    change:
      lasts && r.ranEmpty_s === null ? null : "Draw less at once, or fit a compressor that delivers more.",
  };
  if (r.relieved_s === null) return [air];
  return [
    air,
    {
      ...base,
      gravity: "danger",
      finding: "relief valve stays shut",
      outcome: "fail",
      value: r.highest.value / 1000,
      limit: cutOut / 1000,
      basis: "common practice, no source: a relief valve is for when the pressure switch has failed",
      says: `${r.part}: its relief valve lifts at ${clock(r.relieved_s)}, though its switch has cut out.`,
      change: "Let its own pressure switch stop its compressor, or give that an unloader.",
    },
  ];
}
