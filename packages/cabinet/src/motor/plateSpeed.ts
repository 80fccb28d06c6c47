import type { Issue } from "../issue.ts";
import type { Nameplate } from "./nameplate.ts";
import { assume, NO_SOURCE, type Notebook } from "./notebook.ts";
import { isMissing } from "./plateIssues.ts";
import { usualSlip } from "./usualValues.ts";

export interface RatedSpeed {
  readonly poles: number;
  readonly slip: number;
}

const POLES = [2, 4, 6, 8, 10, 12];
/** A plate that gives synchronous speed, within this, has been rounded. */
const ROUNDED = 0.004;
/** More slip than this at full load is another frequency or a misread figure. Common practice, no source. */
const MOST_SLIP = 0.18;

const synchronous_rpm = (frequency_Hz: number, poles: number): number => (120 * frequency_Hz) / poles;

/**
 * Poles and rated slip from speed and frequency: the lowest synchronous speed 120 f/P that lies above it.
 *
 * A plate that gives a synchronous speed itself is taken to mean that number of poles at the usual slip;
 * a missing speed four poles at the usual slip.
 */
export function speedOf(plate: Nameplate, notes: Notebook): RatedSpeed | Issue {
  const { speed_rpm: n, frequency_Hz: f } = plate;
  const slip = usualSlip(f);
  if (isMissing(n)) {
    const value = `${Math.round(synchronous_rpm(f, 4) * (1 - slip))} rpm`;
    assume(
      notes,
      "full-load speed",
      value,
      "2 poles turn twice as fast",
      `four poles, the commonest; ${NO_SOURCE}`,
    );
    return { poles: 4, slip };
  }
  const exact = POLES.find((p) => Math.abs(n / synchronous_rpm(f, p) - 1) <= ROUNDED);
  if (exact !== undefined) return rounded(n, f, exact, notes);
  const poles = POLES.filter((p) => synchronous_rpm(f, p) > n).at(-1);
  if (poles === undefined) return speedIssue(n, f);
  const found = 1 - n / synchronous_rpm(f, poles);
  return found > MOST_SLIP ? speedIssue(n, f) : { poles, slip: found };
}

function rounded(n: number, f: number, poles: number, notes: Notebook): RatedSpeed {
  const slip = usualSlip(f);
  const speed = synchronous_rpm(f, poles) * (1 - slip);
  assume(notes, "full-load speed", `${Math.round(speed)} rpm`, null, `usual slip; ${NO_SOURCE}`);
  notes.contradictions.push(
    `The plate gives ${n} rpm, which is synchronous speed (${poles} poles, ${f} Hz): a loaded induction motor ` +
      `turns slower. Taken as ${Math.round(speed)} rpm.`,
  );
  return { poles, slip };
}

function speedIssue(n: number, f: number): Issue {
  const speeds = POLES.slice(0, 4).map((p) => Math.round(synchronous_rpm(f, p)));
  const other = f < 55 ? 60 : 50;
  const fits = POLES.some((p) => {
    const slip = 1 - n / synchronous_rpm(other, p);
    return slip > 0 && slip < 0.08;
  });
  const hint = fits ? `; it would suit a ${other} Hz motor` : "";
  return {
    path: "nameplate.speed",
    expected: `a speed within 18 % below a synchronous speed of ${f} Hz (${speeds.join(", ")} rpm)${hint}`,
    received: `${n} rpm`,
  };
}
