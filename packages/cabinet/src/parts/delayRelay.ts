import type { DelayRelayParameters } from "@startgap/circuit";
import { may, need, type RecordOf, record } from "../shape/record.ts";
import { quantity } from "../shape/scalars.ts";
import { assumed } from "./common.ts";
import { type Built, isField, kind, place, placeFields, type Surroundings } from "./kind.ts";

const fields = {
  is: isField("delay relay"),
  ...placeFields,
  delay: need(
    quantity("time", { from: "0 s", to: "1 h", example: "6 s +- 10 %" }),
    "From being energised to closing its contact.",
  ),
  reset: may(
    quantity("time", { from: "0 s", to: "60 s", example: "100 ms" }),
    "How long it must be dead before it forgets its count.",
  ),
} as const;

type Spec = RecordOf<typeof fields>;

/** Common practice: 50 to 650 ms among relays; 100 ms for the quicker ones. */
const RESET_S = 0.1;

function build(spec: Spec, around: Surroundings): Built {
  const parameters: DelayRelayParameters = {
    is: "delay relay",
    ...place(around),
    delay_s: spec.delay.nominal,
    reset_s: spec.reset?.nominal ?? RESET_S,
  };
  const reset = assumed(
    around.name,
    "dead time that resets it",
    "100 ms",
    "50 ms to 650 ms",
    "common practice, no source",
  );
  return { parameters, assumptions: spec.reset === null ? [reset] : [], notes: [] };
}

/** An on-delay relay. */
export const delayRelay = kind<Spec>({
  is: "delay relay",
  doc: "An on-delay relay: closes its contact a while after it is energised.",
  shape: record("a delay relay", fields),
  feeds: true,
  build,
});
