import {
  type Circuit,
  type MotorParameters,
  type PressureSwitchParameters,
  plantOf,
} from "@startgap/circuit";
import { tellWhole } from "../telling.ts";
import { type CaseStory, toldAs } from "./caseStory.ts";
import { asFiled, type Scene } from "./scene.ts";

const compressorsIn = ({ parts }: Circuit): MotorParameters[] =>
  parts.flatMap((p) => (p.is === "motor" && p.compressor !== undefined ? [p] : []));

/** The switch that opened: the first to come to its cut-out, in the order of the file where they are set alike. */
function openedFirst({ controls }: Circuit): PressureSwitchParameters | null {
  const switches = (controls ?? []).flatMap((c) => (c.is === "pressure switch" ? [c] : []));
  return switches.reduce<PressureSwitchParameters | null>(
    (first, one) => (first === null || one.cutOut_Pa < first.cutOut_Pa ? one : first),
    null,
  );
}

/** Compressors whose unloader that switch does not work: their heads are still full. */
function stillFull(circuit: Circuit): MotorParameters[] {
  const opened = openedFirst(circuit);
  return compressorsIn(circuit).filter(({ compressor }) => {
    const unloader = compressor?.unloader ?? "none";
    if (typeof unloader === "string") return unloader === "none";
    return unloader.switch !== opened?.name;
  });
}

const EMPTIED =
  "Fit an unloader that empties the head whenever its motor stops, by flyweights or by the contactor, not by its own pressure switch alone.";

/** A restart after the first pressure switch has opened: every other unloader has stayed shut. */
export const trappedHead: CaseStory = {
  kind: "trapped head",
  about({ circuit }) {
    const names = stillFull(circuit)
      .map((p) => p.name)
      .join(", ");
    const opened = openedFirst(circuit);
    return opened === null
      ? `A restart with full heads: nothing has emptied ${names}.`
      : `A restart after ${opened.name} has opened: no unloader has emptied ${names}.`;
  },
  skip({ circuit }) {
    if (compressorsIn(circuit).length === 0) return "The file tells of no compressor.";
    if (stillFull(circuit).length > 0) return null;
    return `Whatever stops the compressors empties their heads: ${openedFirst(circuit)?.name ?? "flyweights"}.`;
  },
  tell(scene: Scene, pace) {
    const full = new Set(stillFull(scene.circuit).map((p) => p.name));
    const script = {
      ...asFiled(scene),
      head: (motor: string) => (full.has(motor) ? ("loaded" as const) : ("vented" as const)),
    };
    const told = tellWhole(plantOf(scene.circuit), script, scene.delay_s, scene.settled_s, pace);
    return "failed" in told
      ? told
      : toldAs("trapped head", scene, told, { "run-up": EMPTIED, "fuse holds": EMPTIED });
  },
};
