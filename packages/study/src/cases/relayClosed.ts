import { plantOf, type Script } from "@startgap/circuit";
import { tellWhole } from "../telling.ts";
import { type CaseStory, toldAs } from "./caseStory.ts";
import { asFiled, holding } from "./scene.ts";

/** The delay is all that stands against both at once: what hangs on one contact can be had twice. */
const TWICE =
  "Change the relay as soon as the motors start at once; a second one in series with it stands in for the first.";
const CHANGES = {
  "lowest motor voltage": TWICE,
  "receptacle sag": TWICE,
  "contactor holds": TWICE,
  "run-up": TWICE,
};

/** A relay that holds nothing back any more: everything starts at once. */
export const relayClosed: CaseStory = {
  kind: "relay failed closed",
  about: (scene) =>
    `Stuck closed is ${holding(scene).join(", ")}: nothing is held back, all motors start at once.`,
  skip: (scene) => (holding(scene).length > 0 ? null : "No delay relay holds a motor back."),
  tell(scene, pace) {
    const stuck = new Set(holding(scene));
    const script: Script = { ...asFiled(scene), stuck: (part) => (stuck.has(part) ? "closed" : null) };
    const told = tellWhole(plantOf(scene.circuit), script, 0, scene.settled_s, pace);
    return "failed" in told ? told : toldAs("relay failed closed", scene, told, CHANGES);
  },
};
