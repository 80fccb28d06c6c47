import { AMBIENT_C, ambientFactor, type Cabinet, currentMargin } from "@startgap/cabinet";
import type { Circuit, MotorParameters } from "@startgap/circuit";
import { isFailure, type StudyFailure } from "../failure.ts";
import { soundOf } from "../failures/sound.ts";
import type { StudyOptions } from "../options.ts";
import { byDanger } from "../order.ts";
import { type Profile, peakMelt, profilesOf } from "../protection/profile.ts";
import { factsOf, partsOf, type Scene, sceneOf } from "../protection/scene.ts";
import { airAround, boxHeat } from "./boxHeat.ts";
import { heatFindings } from "./findings.ts";
import { motorHeat } from "./motorHeat.ts";
import { startsOfReceiver } from "./receiverStarts.ts";
import type { FuseHeat, HeatReport, MotorHeat } from "./results.ts";
import { type StartHeat, startHeatOf } from "./startHeat.ts";
import { type Around, transformerHeat } from "./transformerHeat.ts";

export interface HeatOptions extends StudyOptions {
  /** Starts an hour of every motor; default what its receiver and the demand of the file ask for, else 4. */
  readonly startsPerHour?: number;
}

const USUAL_STARTS = 4;
const FINE = 1e-8;
/** Days taken where the file describes no box, degC: common practice, no source. */
export const USUAL_DAYS = { summer: { night_C: 25, day_C: 40 }, winter: { night_C: -15, day_C: 0 } } as const;

/**
 * What gets how warm: the air in the box, transformer windings and cores over a warm and a cold day, motor windings and
 * their start windings and capacitors; and what the fuses still hold in that air.
 *
 * @returns figures and findings; or one sentence that says when, where and why it could not be finished
 *
 * Limitations: everything runs without a pause, the worst case; one time constant a body; the air in the box is one.
 */
export function heat(cabinet: Cabinet, options: HeatOptions = {}): HeatReport | StudyFailure {
  const startsPerHour = options.startsPerHour ?? USUAL_STARTS;
  const scene = sceneOf(cabinet);
  const started = startsOf(cabinet, options);
  if (isFailure(started)) return started;
  const box = cabinet.enclosure === null ? null : boxHeat(scene, cabinet.enclosure);
  const around = airAround(box, cabinet.enclosure ?? USUAL_DAYS);
  const fuses = fusesInHeat(cabinet, scene, around, options);
  if (isFailure(fuses)) return fuses;
  const wound = [...partsOf(scene, "autotransformer"), ...partsOf(scene, "transformer")];
  const figures = {
    startsPerHour,
    box,
    transformers: wound
      .filter((p) => Number.isFinite(p.rating_VA))
      .map((p) => transformerHeat(scene, p, insulationOf(cabinet, p.name), around)),
    motors: partsOf(scene, "motor").map((p) =>
      motorHeat(scene, p, started.get(p.name), takenOf(scene, p, options.startsPerHour)),
    ),
    fuses,
  };
  return {
    startgap: "heat 1",
    title: cabinet.title,
    ...figures,
    findings: byDanger(heatFindings(figures)),
    notes: notesOf(cabinet),
  };
}

function takenOf(scene: Scene, p: MotorParameters, asked: number | undefined): MotorHeat["taken"] {
  if (asked !== undefined) return { perHour: asked, from: "asked" };
  const starts = startsOfReceiver(scene.circuit, p);
  return starts === null ? { perHour: USUAL_STARTS, from: "assumed" } : { perHour: starts, from: "receiver" };
}

export const insulationOf = (cabinet: Cabinet, part: string) => {
  const facts = cabinet.facts[part];
  return facts?.is === "transformer" || facts?.is === "autotransformer" ? facts.insulation_C : null;
};

function startsOf(cabinet: Cabinet, options: StudyOptions): ReadonlyMap<string, StartHeat> | StudyFailure {
  let heats: () => ReadonlyMap<string, StartHeat> = () => new Map();
  // A heat summed over steps needs more of them than the story itself.
  const tolerance = Math.min(options.tolerance ?? FINE, FINE);
  const sound = soundOf(cabinet, { ...options, tolerance }, (plant) => {
    const watched = startHeatOf(plant);
    heats = watched.heats;
    return watched.recorder;
  });
  return isFailure(sound) ? sound : heats();
}

/** The cabinet with every fuse in air of a temperature, instead of the air that its file states. */
export function inAir(cabinet: Cabinet, factorOf: (fuse: string) => number): Circuit {
  const parts = cabinet.circuit.parts.map((p) => {
    if (p.is !== "fuse" || p.melt === null) return p;
    const factor = factorOf(p.name);
    const { melt, clearing } = p;
    return {
      ...p,
      melt: { ...melt, minimumFusing_A: melt.minimumFusing_A * factor },
      clearing: clearing && { ...clearing, minimumFusing_A: clearing.minimumFusing_A * factor },
    };
  });
  return { ...cabinet.circuit, parts };
}

/** Runs the story once more with every fuse in the hottest air of the summer. */
function fusesInHeat(
  cabinet: Cabinet,
  scene: Scene,
  around: readonly Around[],
  options: StudyOptions,
): FuseHeat[] | StudyFailure {
  const hottest = Math.max(...around.map(({ air }) => air.day_C));
  const air_C = Math.min(AMBIENT_C.most, Math.max(AMBIENT_C.least, hottest));
  const factorOf = (name: string): number =>
    ambientFactor(air_C) / ambientFactor(factsOf(scene, "fuse", name)?.ambient_C ?? 25);
  const circuit = inAir(cabinet, factorOf);
  let profiles: ReadonlyMap<string, Profile> = new Map();
  const sound = soundOf({ ...cabinet, circuit }, options, (plant) => {
    const recorded = profilesOf(plant);
    profiles = recorded.profiles;
    return recorded.recorder;
  });
  if (isFailure(sound)) return sound;
  return circuit.parts.flatMap((p): FuseHeat[] => {
    const profile = profiles.get(p.name);
    if (p.is !== "fuse" || p.melt === null || profile === undefined) return [];
    const margin = currentMargin(peakMelt(p.melt, profile));
    return [{ part: p.name, air_C, factor: factorOf(p.name), currentMargin: margin }];
  });
}

const NOTES: readonly string[] = [
  "Heat is worked out for everything running without a pause; with pauses it stays below that.",
  "Current densities of motor windings, time constants and the losses of fuses, coils and relays are usual values, not this cabinet's.",
];

const notesOf = (cabinet: Cabinet): string[] =>
  cabinet.enclosure === null
    ? [...NOTES, 'The file has no "enclosure": parts are taken to stand in the open, at 40 degC in summer.']
    : [...NOTES];
