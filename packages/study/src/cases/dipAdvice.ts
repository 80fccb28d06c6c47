import { verdicts } from "../order.ts";
import { worth } from "../remedies.ts";
import type { Verdict } from "../results.ts";
import type { DipOutcome } from "./dipResults.ts";
import { holding, type Scene } from "./scene.ts";

type Judged = Pick<DipOutcome, "end" | "stalled" | "melted" | "chatters" | "loaded">;

/** Back by itself and one after the other, whatever the heads: pass. All at once: caution; not at all: fail. */
export function verdictOf({ end, stalled, melted, chatters }: Omit<Judged, "loaded">): Verdict {
  if (stalled.length + melted.length + chatters.length > 0) return "fail";
  if (end === "stays off" || end === "chatters") return "fail";
  return end === "together" ? "caution" : "pass";
}

export const UNLOADED =
  "Fit unloaders that empty the heads at every stop, and a lock-out timer that leaves them the time to.";
const LOCKED_OUT =
  "Fit a lock-out timer in the contactor's path, so that after any dip everything starts from the beginning.";
const WAY_BACK = "Give what stays off a way back that needs no hand, or a lamp that tells of it.";

/** What to change in the restart; null when it needs nothing. */
export function restartChange(scene: Scene, outcome: Judged): string | null {
  const { end, stalled, melted, chatters, loaded } = outcome;
  if (chatters.length > 0 || end === "chatters") return worth("contacts weld", "fail").change;
  if (stalled.length + melted.length > 0) return loaded.length > 0 ? UNLOADED : LOCKED_OUT;
  if (end === "stays off") return WAY_BACK;
  return end === "together" ? forgetful(scene) : null;
}

/** A relay that resets before the contactor is in again never restarts two motors together. */
function forgetful(scene: Scene): string {
  const lags = scene.circuit.parts.flatMap((p) =>
    p.is === "contactor" && p.coil !== null ? [p.coil.pullInTime_s] : [],
  );
  if (lags.length === 0 || holding(scene).length === 0) return LOCKED_OUT;
  const within = `${Math.round(1000 * Math.min(...lags))} ms`;
  return `Fit a lock-out timer in the contactor's path, or a delay relay that loses its count within ${within} without voltage.`;
}

/** What to change for the dips of a map, each sentence once, those of the gravest first. */
export function mapChanges(scene: Scene, outcomes: readonly DipOutcome[]): string[] {
  const graver = verdicts.flatMap((verdict) => outcomes.filter((one) => one.verdict === verdict));
  return [...new Set(graver.flatMap((one) => restartChange(scene, one) ?? []))];
}
