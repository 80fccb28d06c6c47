import { plantOf } from "@startgap/circuit";
import { tellWhole } from "../telling.ts";
import { percent } from "../words.ts";
import { type CaseStory, toldAs } from "./caseStory.ts";
import { asFiled, hasSteadySupply } from "./scene.ts";

/** Lowest service voltage of nominal: 110 V on 120 V. Source: ANSI C84.1 Range B (from memory). */
export const LOW_LINE = 110 / 120;

export const NO_LINE = "Its supply is no line of a utility: it neither sags nor blinks like one.";

/** The start on the lowest voltage that a utility may give for a while. */
export const lowLine: CaseStory = {
  kind: "low line",
  about: () =>
    `The start on a low line: ${percent(100 * LOW_LINE)} of nominal, the least that ANSI C84.1 Range B allows (from memory).`,
  skip: ({ circuit }) => (hasSteadySupply(circuit) ? null : NO_LINE),
  tell(scene, pace) {
    const script = { ...asFiled(scene), supply: [{ at_s: 0, factor: LOW_LINE }] };
    const told = tellWhole(plantOf(scene.circuit), script, scene.delay_s, scene.settled_s, pace);
    return "failed" in told ? told : toldAs("low line", scene, told);
  },
};
