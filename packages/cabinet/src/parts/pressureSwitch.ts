import type { PressureSwitchParameters } from "@startgap/circuit";
import type { Issue } from "../issue.ts";
import { need, type RecordOf, record } from "../shape/record.ts";
import { text } from "../shape/scalars.ts";
import { type Built, controlFields, isField, kind, type Surroundings } from "./kind.ts";
import { pressure } from "./receiver.ts";

const fields = {
  is: isField("pressure switch"),
  ...controlFields,
  receiver: need(text("the name of a receiver", 60, "tank"), "Name of the receiver whose pressure it reads."),
  cutIn: need(pressure("a gauge pressure", "95 psi"), "It closes as the pressure falls to this."),
  cutOut: need(pressure("a gauge pressure", "125 psi"), "It opens as the pressure rises to this."),
} as const;

export type PressureSwitchSpec = RecordOf<typeof fields>;

function build(spec: PressureSwitchSpec, around: Surroundings): Built | readonly Issue[] {
  const { cutIn, cutOut } = spec;
  if (cutIn.high >= cutOut.low) {
    const expected = `a cut-out above the cut-in of ${kPa(cutIn.high)}`;
    return [{ path: "cutOut", expected, received: kPa(cutOut.low) }];
  }
  const parameters: PressureSwitchParameters = {
    is: "pressure switch",
    name: around.name,
    receiver: spec.receiver,
    cutIn_Pa: cutIn.nominal,
    cutOut_Pa: cutOut.nominal,
  };
  return { parameters, assumptions: [], notes: [] };
}

const kPa = (value: number): string => `${Number((value / 1000).toPrecision(4))} kPa`;

/** A pressure switch in the path of a coil, or of a contact without one. */
export const pressureSwitch = kind<PressureSwitchSpec>({
  is: "pressure switch",
  doc: "A contact that calls for air: it closes at its cut-in and opens at its cut-out.",
  shape: record("a pressure switch", fields),
  feeds: false,
  build,
  links: (spec) => [{ path: "receiver", name: spec.receiver, to: ["receiver"] }],
});
