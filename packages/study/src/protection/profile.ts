import {
  type CircuitPlant,
  currentInto,
  type MeltTerms,
  type Mode,
  meltAfter,
  meltSettled,
} from "@startgap/circuit";
import type { Recorder } from "@startgap/ode";

/** Current of one fuse over a story. */
export interface Profile {
  readonly time_s: number[];
  readonly current_A: number[];
}

/** Records the current of every fuse of a cabinet. */
export function profilesOf(plant: CircuitPlant): {
  readonly recorder: Recorder<Mode>;
  readonly profiles: ReadonlyMap<string, Profile>;
} {
  const fuses = plant.layout.circuit.parts.flatMap((p, i) => (p.is === "fuse" ? [{ name: p.name, i }] : []));
  const profiles = new Map(fuses.map(({ name }) => [name, { time_s: [], current_A: [] } as Profile]));
  const recorder: Recorder<Mode> = {
    interior: true,
    sample(t, y, mode) {
      const walk = plant.solve(y, mode);
      for (const { name, i } of fuses) {
        profiles.get(name)?.time_s.push(t);
        profiles.get(name)?.current_A.push(currentInto(walk, i));
      }
    },
  };
  return { recorder, profiles };
}

/**
 * Highest melt fraction of an element over a current profile, cold at its start; the element is not opened.
 *
 * Between two samples the square of the current is held at the mean of both; the terms then move exactly.
 */
export function peakMelt(terms: MeltTerms, { time_s, current_A }: Profile): number {
  let state: readonly number[] = meltSettled(terms, 0);
  let peak = 0;
  for (let k = 1; k < time_s.length; k++) {
    const dt = time_s[k] - time_s[k - 1];
    if (dt <= 0) continue;
    const mean_A = Math.sqrt((current_A[k] ** 2 + current_A[k - 1] ** 2) / 2);
    state = meltAfter(terms, state, mean_A, dt);
    peak = Math.max(
      peak,
      state.reduce((sum, x) => sum + x, 0),
    );
  }
  return peak;
}
