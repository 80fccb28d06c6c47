import { type Circuit, plantOf } from "@startgap/circuit";
import type { StudyFailure } from "../failure.ts";
import { scriptFor } from "../stagger.ts";
import { type Pace, tellWhole } from "../telling.ts";
import { amperes, seconds, setting } from "../words.ts";
import { type CaseStory, type Told, toldAs } from "./caseStory.ts";
import type { CaseFinding } from "./results.ts";
import { firstAlone, holding, type Scene } from "./scene.ts";

/** The relay counts a motor as up below so many times its running current. Common practice, no source. */
const OVER_RUNNING = 1.5;
/** Settling time after the first motor is up, s. */
const SETTLING_s = 0.5;

/** Every relay that holds a motor back waits for the first motor's current instead of its own time. */
function sensing(scene: Scene, below_A: number): Circuit {
  const names = new Set(holding(scene));
  return {
    ...scene.circuit,
    parts: scene.circuit.parts.map((p) =>
      p.is === "delay relay" && names.has(p.name)
        ? { ...p, delay_s: SETTLING_s, waitsFor: { part: scene.stagger.first, below_A } }
        : p,
    ),
  };
}

/** For comparison: the second motor starts when the first one's current says that it is up. */
export const byCurrent: CaseStory = {
  kind: "by current",
  about: (scene) =>
    `For comparison: ${holding(scene).join(", ")} closes ${setting(SETTLING_s)} after the current of ${scene.stagger.first} has come down, in place of a set time.`,
  skip(scene) {
    if (holding(scene).length === 0) return "No delay relay holds a motor back.";
    const waits = scene.circuit.parts.some((p) => p.is === "delay relay" && p.waitsFor !== undefined);
    return waits ? "The file's relay does so by itself." : null;
  },
  tell: tellByCurrent,
};

function tellByCurrent(scene: Scene, pace: Pace): Told | StudyFailure {
  const plant = plantOf(scene.circuit);
  const alone = tellWhole(plant, firstAlone(scene), Number.POSITIVE_INFINITY, scene.settled_s, pace);
  if ("failed" in alone) return alone;
  const first = plant.layout.circuit.parts.findIndex((p) => p.name === scene.stagger.first);
  const { recording } = alone;
  const running_A = recording.at(recording.rows - 1, recording.channels.current + first);
  const below_A = OVER_RUNNING * running_A;
  const { stagger } = scene;
  const asItsOwn = {
    ...scriptFor(stagger, scene.delay_s),
    delay_s: (_: string, stated_s: number) => stated_s,
  };
  const told = tellWhole(plantOf(sensing(scene, below_A)), asItsOwn, SETTLING_s, scene.settled_s, pace);
  if ("failed" in told) return told;
  const judged = toldAs("by current", scene, told);
  return { ...judged, findings: [...judged.findings, ...waitFindings(scene, judged, below_A)] };
}

/** How long the second motor waited. */
function waitFindings(scene: Scene, { report }: Told, below_A: number): CaseFinding[] {
  const { first } = scene.stagger;
  const later = (report?.motors ?? []).filter(({ part }) => part !== first);
  return later.map(({ part, closed_s }) => ({
    finding: "waits for the first",
    part,
    case: "by current",
    outcome: closed_s === null ? "fail" : "pass",
    gravity: "stops work",
    value: closed_s,
    limit: null,
    unit: "s",
    basis: `common practice, no source: up below ${OVER_RUNNING} times the running current, here ${amperes(below_A)}`,
    says:
      closed_s === null
        ? `${part}: never starts, the current of ${first} does not come down.`
        : `${part}: closes after ${seconds(closed_s)} instead of ${setting(scene.delay_s)}.`,
    change: closed_s === null ? "Keep to a set time, or find why the first motor draws so much." : null,
  }));
}
