import { plantOf, type Script } from "@startgap/circuit";
import type { StudyFailure } from "../failure.ts";
import type { Pace } from "../telling.ts";
import { seconds } from "../words.ts";
import { type CaseStory, type Told, toldAs } from "./caseStory.ts";
import { NO_LINE } from "./lowLine.ts";
import type { CaseFinding } from "./results.ts";
import { asFiled, firstAlone, forgetting, hasSteadySupply, runFrom, type Scene, tellFrom } from "./scene.ts";

const TRIES = 3;
/** Switched off by the rule of five seconds, tried again after ten. Common practice, no source. */
const ON_s = 5;
const OFF_s = 10;

/** Voltage on for a try, off for a pause, as often as it is tried; back for good after the last pause. */
const tries = Array.from({ length: TRIES }, (_, k) => [
  { at_s: k * (ON_s + OFF_s), factor: 1 },
  { at_s: k * (ON_s + OFF_s) + ON_s, factor: 0 },
]).flat();

/** When the healthy start after them begins. */
const AFTER_s = TRIES * (ON_s + OFF_s);

/**
 * A motor that does not come up is tried three times, then whatever held it is gone: a start on hot fuses.
 */
export const triesInARow: CaseStory = {
  kind: "tries in a row",
  about: ({ stagger }) =>
    `${stagger.first} is held still and tried ${TRIES} times, ${ON_s} s on and ${OFF_s} s off; then it is free and everything starts on hot fuses.`,
  skip(scene) {
    if (!hasSteadySupply(scene.circuit)) return NO_LINE;
    return scene.circuit.parts.some((p) => p.is === "fuse" && p.melt !== null)
      ? null
      : "There is no fuse with a curve.";
  },
  tell: tellTries,
};

function tellTries(scene: Scene, pace: Pace): Told | StudyFailure {
  const plant = plantOf(scene.circuit);
  const { first } = scene.stagger;
  const held: Script = { ...firstAlone(scene), supply: tries, held: (motor) => motor === first };
  const hot = runFrom(plant, plant.start(held), AFTER_s - OFF_s / 2, pace);
  if ("failed" in hot) return hot;
  const melted = melts(plant.layout.circuit.parts, hot.mode);
  const filed = asFiled(scene);
  const healthy: Script = {
    ...filed,
    connects_s: (motor) => filed.connects_s(motor) + (filed.connects_s(motor) > 0 ? AFTER_s : 0),
    supply: [{ at_s: AFTER_s, factor: 1 }],
  };
  const rested = { ...hot, mode: plant.rescript(hot.mode, healthy) };
  const before = runFrom(plant, rested, AFTER_s, pace);
  if ("failed" in before) return before;
  const told = tellFrom(plant, forgetting(plant, before), AFTER_s + scene.settled_s, scene.delay_s, pace);
  if ("failed" in told) return told;
  const judged = toldAs("tries in a row", scene, told, AFTER_s);
  return { ...judged, findings: [...melted, ...judged.findings] };
}

/** Fuses that did not outlast the tries. */
function melts(
  parts: readonly { readonly is: string; readonly name: string }[],
  mode: readonly unknown[],
): CaseFinding[] {
  return parts.flatMap((p, i) => {
    if (p.is !== "fuse" || !(mode[i] as { readonly melted: boolean }).melted) return [];
    return [
      {
        finding: "outlasts the tries",
        part: p.name,
        case: "tries in a row",
        outcome: "caution",
        value: null,
        limit: null,
        unit: "",
        basis: `common practice, no source: ${TRIES} tries of ${seconds(ON_s)} with ${seconds(OFF_s)} between`,
        says: `${p.name}: opens during the tries, before a healthy start is made.`,
      },
    ];
  });
}
