import type { Circuit, Script } from "@startgap/circuit";
import { isFailure, type StudyFailure } from "../failure.ts";
import type { StudyOptions } from "../options.ts";
import { tellWave } from "./waveStory.ts";

/** One angle of the supply's voltage at 0 s, and the highest instantaneous line current that followed. */
export interface AngleTried {
  readonly angle_deg: number;
  readonly peak_A: number;
}

/** Half a turn: the other half is the same upside down. */
const STEP_deg = 10;
const ANGLES = 18;
/** The first peak stands within the first two cycles. */
const FIRST_cycles = 2;

/** Closes at angles over half a turn and tells which gives the highest first peak in the line. */
export function worstAngle(
  circuit: Circuit,
  script: Script,
  options: Pick<StudyOptions, "tolerance" | "signal">,
): { readonly tried: readonly AngleTried[]; readonly worst: AngleTried } | StudyFailure {
  const [supply] = circuit.parts;
  const to_s = FIRST_cycles / (supply?.is === "supply" ? supply.frequency_Hz : 60);
  const tried: AngleTried[] = [];
  for (let k = 0; k < ANGLES; k++) {
    const angle_deg = k * STEP_deg;
    const how = { script, angle_rad: (angle_deg * Math.PI) / 180 };
    const told = tellWave(
      circuit,
      how,
      { from_s: 0, to_s },
      { tolerance: options.tolerance, signal: options.signal },
    );
    if (isFailure(told)) return told;
    let peak_A = 0;
    const { samples } = told;
    for (let row = 0; row < samples.rows; row++) peak_A = Math.max(peak_A, Math.abs(samples.current(0, row)));
    tried.push({ angle_deg, peak_A });
  }
  return { tried, worst: tried.reduce((a, b) => (b.peak_A > a.peak_A ? b : a)) };
}
