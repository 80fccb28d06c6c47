import { plantOf, type Script } from "@startgap/circuit";
import type { StudyFailure } from "../failure.ts";
import { eventOf } from "../story.ts";
import type { Pace } from "../telling.ts";
import { seconds } from "../words.ts";
import { type CaseStory, type Told, toldAs } from "./caseStory.ts";
import { NO_LINE } from "./lowLine.ts";
import type { CaseFinding } from "./results.ts";
import { asFiled, firstAlone, forgetting, hasSteadySupply, type Scene, tellFrom } from "./scene.ts";

/** Switched off by the rule of five seconds, tried again after ten. Common practice, no source. */
const ON_s = 5;
const OFF_s = 10;

/** Voltage on for a try, off for a pause, as often as it is tried. */
const stepsOf = (tries: number): Script["supply"] =>
  Array.from({ length: tries }, (_, k) => [
    { at_s: k * (ON_s + OFF_s), factor: 1 },
    { at_s: k * (ON_s + OFF_s) + ON_s, factor: 0 },
  ]).flat();

const COOLS = "Try once, then look for what holds it; leave hot fuses ten minutes before the next try.";

/** A motor that does not come up is tried again and again, then whatever held it is gone: a start on hot fuses. */
export const triesInARow: CaseStory = {
  kind: "tries in a row",
  about: ({ stagger, tries }) =>
    `${stagger.first} is held still and tried ${tries === 1 ? "once" : `${tries} times`}, ${ON_s} s on and ${OFF_s} s off; then it is free and everything starts on hot fuses.`,
  skip(scene) {
    if (!hasSteadySupply(scene.circuit)) return NO_LINE;
    return scene.circuit.parts.some((p) => p.is === "fuse" && p.melt !== null)
      ? null
      : "There is no fuse with a curve.";
  },
  tell: tellTries,
};

function tellTries(scene: Scene, pace: Pace): Told | StudyFailure {
  const { stagger, tries } = scene;
  /** When the healthy start after the last pause begins. */
  const after_s = tries * (ON_s + OFF_s);
  const plant = plantOf(scene.circuit);
  const held: Script = {
    ...firstAlone(scene),
    supply: stepsOf(tries),
    held: (motor) => motor === stagger.first,
  };
  const hot = tellFrom(plant, plant.start(held), after_s - OFF_s / 2, scene.delay_s, pace);
  if ("failed" in hot) return hot;
  const melted = hot.events.filter(({ name }) => name.endsWith(": melts"));
  const filed = asFiled(scene);
  const healthy: Script = {
    ...filed,
    connects_s: (motor) => filed.connects_s(motor) + (filed.connects_s(motor) > 0 ? after_s : 0),
    supply: [{ at_s: after_s, factor: 1 }],
  };
  const rested = { ...hot.end, mode: plant.rescript(hot.end.mode, healthy) };
  const before = tellFrom(plant, rested, after_s, scene.delay_s, pace);
  if ("failed" in before) return before;
  const told = tellFrom(plant, forgetting(plant, before.end), after_s + scene.settled_s, scene.delay_s, pace);
  if ("failed" in told) return told;
  const judged = toldAs("tries in a row", scene, told, { "fuse holds": COOLS }, after_s);
  return { ...judged, findings: [...melted.map((event) => opensIn(event, tries)), ...judged.findings] };
}

/** A fuse that did not outlast the tries. */
function opensIn(event: { readonly name: string; readonly t: number }, tries: number): CaseFinding {
  const { part, at_s } = eventOf(event);
  const which = Math.floor(at_s / (ON_s + OFF_s)) + 1;
  return {
    finding: "outlasts the tries",
    part,
    case: "tries in a row",
    outcome: "caution",
    gravity: "stops work",
    value: which,
    limit: tries,
    unit: "",
    basis: `common practice, no source: tries of ${seconds(ON_s)} with ${seconds(OFF_s)} between`,
    says: `${part}: opens in try ${which}, before a healthy start is made.`,
    change: COOLS,
  };
}
