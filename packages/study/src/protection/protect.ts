import type { Cabinet } from "@startgap/cabinet";
import { isFailure, type StudyFailure } from "../failure.ts";
import { soundOf } from "../failures/sound.ts";
import type { StudyOptions } from "../options.ts";
import { byDanger } from "../order.ts";
import { ampacityFindings } from "./ampacity.ts";
import { contactorFindings } from "./contactors.ts";
import { dropFindings } from "./drops.ts";
import { interruptingFindings } from "./interrupting.ts";
import { motorFuseFindings } from "./motorFuse.ts";
import { neutralFindings } from "./neutral.ts";
import { overloadFindings } from "./overload.ts";
import { type Profile, profilesOf } from "./profile.ts";
import type { FuseWindow, ProtectionReport } from "./results.ts";
import { partsOf, type Scene, sceneOf } from "./scene.ts";
import { shortTimeFindings } from "./shortTime.ts";
import { throughFaultFindings } from "./throughFault.ts";
import { transformerFuseFindings } from "./transformerFuse.ts";
import { windowFinding, windowOf } from "./window.ts";

/**
 * Whether what is fitted protects: fuses, conductors, transformers, motors and contactors against each other, each
 * question with its clause and with what to change.
 *
 * Steady currents and faults come from the circuit with every contact closed; what a fuse must hold comes from the
 * story as it is meant to be run.
 *
 * @returns findings, danger first; or one sentence that says when, where and why it could not be finished
 *
 * Limitations: an estimate, not a code calculation; no breakers, no let-through of current-limiting fuses, no
 * grouping of conductors, no earth faults.
 */
export function protect(cabinet: Cabinet, options: StudyOptions = {}): ProtectionReport | StudyFailure {
  let profiles: ReadonlyMap<string, Profile> = new Map();
  const sound = soundOf(cabinet, options, (plant) => {
    const recorded = profilesOf(plant);
    profiles = recorded.profiles;
    return recorded.recorder;
  });
  if (isFailure(sound)) return sound;
  const scene = sceneOf(cabinet);
  const windows = windowsOf(scene, profiles);
  const findings = [
    ...neutralFindings(scene),
    ...ampacityFindings(scene),
    ...shortTimeFindings(scene),
    ...interruptingFindings(scene),
    ...transformerFuseFindings(scene),
    ...throughFaultFindings(scene),
    ...motorFuseFindings(scene),
    ...overloadFindings(scene),
    ...contactorFindings(scene),
    ...windows.map(windowFinding),
    ...dropFindings(scene),
  ];
  return {
    startgap: "protect 1",
    title: cabinet.title,
    rules: scene.rules,
    findings: byDanger(findings),
    windows,
    notes: notesOf(scene),
  };
}

function windowsOf(scene: Scene, profiles: ReadonlyMap<string, Profile>): FuseWindow[] {
  return partsOf(scene, "fuse").flatMap((fuse) => {
    const profile = profiles.get(fuse.name);
    const found = profile === undefined ? null : windowOf(scene, fuse, profile);
    return found === null ? [] : [found];
  });
}

const ALWAYS: readonly string[] = [
  "A fuse in a neutral is no protection: when it opens the load goes dead and its other wire stays live.",
  "Conductors are taken at 30 degC, not grouped, and at 60 degC terminals where the file does not say otherwise.",
];

function notesOf(scene: Scene): string[] {
  const facts = scene.cabinet.facts;
  const untold = partsOf(scene, "cable").filter(({ name }) => {
    const told = facts[name];
    return told?.is !== "cable" || told.conductor === null || told.conductor.metal !== "Cu";
  });
  const bare = partsOf(scene, "fuse").filter(({ melt }) => melt === null);
  return [
    ...ALWAYS,
    ...untold.map(
      ({ name }) => `${name}: without a copper conductor in the file its ampacity is not judged.`,
    ),
    ...bare.map(({ name }) => `${name}: without a curve nothing is judged that needs its melting time.`),
  ];
}
