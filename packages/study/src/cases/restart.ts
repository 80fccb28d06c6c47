import type { Script } from "@startgap/circuit";
import type { StudyFailure } from "../failure.ts";
import { firstLive } from "../judge/live.ts";
import type { Pace, Telling } from "../telling.ts";
import { percent, seconds, setting } from "../words.ts";
import { type CaseStory, type Skipped, type Told, toldAs } from "./caseStory.ts";
import { restartChange, UNLOADED } from "./dipAdvice.ts";
import type { DipOutcome } from "./dipResults.ts";
import { dipSays } from "./dipWords.ts";
import { NO_LINE } from "./lowLine.ts";
import type { CaseFinding, CaseKind } from "./results.ts";
import {
  asFiled,
  type Dip,
  forgetting,
  hasSteadySupply,
  runFrom,
  running,
  type Scene,
  tellFrom,
} from "./scene.ts";
import { stepsOf, tail_s, tryDip } from "./tryDip.ts";

/** A motor counts as up from this part of its settled speed on: that of run-up times. */
const UP = 0.95;
/** Nor is a run-up told that nobody would see, s. */
const ALL_BUT_s = 0.05;

/** Judged of the start that follows; what the dip itself does to the voltage is no fault of the cabinet. */
const OF_THE_RESTART: readonly string[] = ["run-up", "lowest motor voltage", "fuse holds"];

const LOADED = { "run-up": UNLOADED, "stands still": UNLOADED, "fuse holds": UNLOADED };

/** What follows a dip, recorded from its end on. */
function tellRestart(kind: CaseKind, scene: Scene, dip: Dip, pace: Pace): Told | Skipped | StudyFailure {
  const from = running(scene, pace);
  if ("failed" in from || "skipped" in from) return from;
  const outcome = tryDip(scene, from, dip, pace);
  if ("failed" in outcome) return outcome;
  const { plant, end } = from;
  const script: Script = { ...asFiled(scene), supply: stepsOf(dip, end.t) };
  const over_s = end.t + dip.length_s;
  const dipped = runFrom(plant, { ...end, mode: plant.rescript(end.mode, script) }, over_s, pace);
  if ("failed" in dipped) return dipped;
  const told = tellFrom(plant, forgetting(plant, dipped), over_s + tail_s(scene), scene.delay_s, pace);
  if ("failed" in told) return told;
  const judged = toldAs(kind, scene, told, LOADED, over_s);
  const lost = new Set(outcome.back_s.flatMap(({ part, after_s }) => (after_s === null ? [] : [part])));
  const kept = judged.findings.filter(
    ({ finding, part }) => OF_THE_RESTART.includes(finding) && (finding === "fuse holds" || lost.has(part)),
  );
  const asJudged = kept.map((one) => (one.finding === "run-up" ? keptUp(one, told) : one));
  return { ...judged, findings: [restartFinding(kind, outcome, scene), ...asJudged] };
}

/** A motor that is up, or all but, as it is connected again has no run-up to be told. */
function keptUp(finding: CaseFinding, { recording, plant }: Telling): CaseFinding {
  const says = `${finding.part}: still up to speed as it comes back.`;
  if (finding.value !== null) return finding.value < ALL_BUT_s ? { ...finding, says } : finding;
  const part = plant.layout.circuit.parts.findIndex((p) => p.name === finding.part);
  const speed = recording.channels.state + plant.layout.places[part].state;
  const row = firstLive(recording, part);
  if (row >= recording.rows) return finding;
  const last = recording.at(recording.rows - 1, speed);
  if (last <= 0 || recording.at(row, speed) < UP * last) return finding;
  return { ...finding, outcome: "pass", value: 0, change: null, says };
}

/** How everything comes back, and what to change in it. */
function restartFinding(kind: CaseKind, outcome: DipOutcome, scene: Scene): CaseFinding {
  return {
    finding: "comes back",
    part: scene.circuit.parts[0].name,
    case: kind,
    outcome: outcome.verdict,
    gravity: outcome.chatters.length > 0 ? "danger" : "stops work",
    value: outcome.length_s,
    limit: null,
    unit: "s",
    basis: "common practice, no source: what a dip has stopped must come back one motor after the other",
    says: dipSays(outcome),
    change: restartChange(scene, outcome),
  };
}

/** Off for longer than anything remembers: contactors, relays and timers all begin anew. */
const OUTAGE_s = 5;

function outageOf({ circuit }: Scene): Dip {
  const resets = circuit.parts.map((p) => (p.is === "delay relay" ? p.reset_s : 0));
  return { left: 0, length_s: Math.max(OUTAGE_s, ...resets.map((reset) => 2 * reset)) };
}

const noneEmptied = ({ circuit }: Scene): string =>
  circuit.parts.some((p) => p.is === "motor" && p.compressor !== undefined)
    ? ", and no pressure switch has emptied a head"
    : "";

/** Everything was running, the power went, and comes back for all at once. */
export const powerReturn: CaseStory = {
  kind: "power return",
  about: (scene) =>
    `Everything runs, the power fails for ${setting(outageOf(scene).length_s)} and comes back: all are called at once${noneEmptied(scene)}.`,
  skip: ({ circuit }) => (hasSteadySupply(circuit) ? null : NO_LINE),
  tell: (scene, pace) => tellRestart("power return", scene, outageOf(scene), pace),
};

/** A dip of given depth and length. */
export const theDip: CaseStory = {
  kind: "dip",
  about: ({ dip }) =>
    `Everything runs, and the supply falls to ${percent(100 * dip.left)} of nominal for ${seconds(dip.length_s)}.`,
  skip: ({ circuit }) => (hasSteadySupply(circuit) ? null : NO_LINE),
  tell: (scene, pace) => tellRestart("dip", scene, scene.dip, pace),
};
