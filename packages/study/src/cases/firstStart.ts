import { type Circuit, plantOf } from "@startgap/circuit";
import { tellWhole } from "../telling.ts";
import { type CaseStory, toldAs } from "./caseStory.ts";
import { asFiled, type Scene } from "./scene.ts";

const coldMotors = ({ circuit }: Scene): string[] =>
  circuit.parts.flatMap((p) => (p.is === "motor" && p.compressor?.coldOil ? [p.name] : []));

/** Stiff oil in every compressor that is known to have any, and nothing in the receivers. */
const onAColdMorning = (circuit: Circuit): Circuit => ({
  ...circuit,
  parts: circuit.parts.map((p) =>
    p.is === "motor" && p.compressor?.coldOil ? { ...p, drives: p.compressor.coldOil } : p,
  ),
  ...(circuit.controls === undefined
    ? {}
    : { controls: circuit.controls.map((c) => (c.is === "receiver" ? { ...c, pressure_Pa: 0 } : c)) }),
});

const THINNER =
  "Warm the crankcase or fill the oil that its maker names for the cold, and give the start more volts if that is not enough.";

/** The first start of the day: stiff oil, empty receivers, cold fuses. */
export const firstStart: CaseStory = {
  kind: "first start",
  about: (scene) =>
    `The first start of a cold day: stiff oil in ${coldMotors(scene).join(", ")}, empty tanks, cold fuses.`,
  skip: (scene) =>
    coldMotors(scene).length > 0
      ? null
      : "No compressor is described by what it starts against, so nothing is known of its cold oil.",
  tell(scene, pace) {
    const plant = plantOf(onAColdMorning(scene.circuit));
    const script = { ...asFiled(scene), head: () => "vented" as const };
    const told = tellWhole(plant, script, scene.delay_s, scene.settled_s, pace);
    return "failed" in told
      ? told
      : toldAs("first start", scene, told, { "run-up": THINNER, "stands still": THINNER });
  },
};
