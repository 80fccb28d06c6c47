import type { DelayRelayParameters } from "@startgap/circuit";
import type { DelayRelayFacts } from "../facts.ts";
import { may, need, type RecordOf, record } from "../shape/record.ts";
import { quantity, text } from "../shape/scalars.ts";
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
  waitsFor: may(
    text("the name of a motor", 60, "compressor 1"),
    "Name of a motor that must be up first: the delay then counts from when its current has come down. Else it counts from being energised.",
  ),
  below: may(
    quantity("current", { from: "0.1 A", to: "1 kA", example: "30 A" }),
    "The other motor counts as up below this current, and as off below a tenth of it.",
  ),
  rating: may(
    quantity("current", { a: "a contact rating", from: "0.1 A", to: "5 kA", example: "30 A" }),
    "Current its contact carries and switches as motor duty. Judged, not simulated.",
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
    ...(spec.waitsFor === null || spec.below === null
      ? {}
      : { waitsFor: { part: spec.waitsFor, below_A: spec.below.nominal } }),
  };
  const reset = assumed(
    around.name,
    "dead time that resets it",
    "100 ms",
    "50 ms to 650 ms",
    "common practice, no source",
  );
  const facts: DelayRelayFacts = { is: "delay relay", rating_A: spec.rating?.nominal ?? null };
  return { parameters, assumptions: spec.reset === null ? [reset] : [], notes: [], facts };
}

/** An on-delay relay. */
export const delayRelay = kind<Spec>({
  is: "delay relay",
  doc: "An on-delay relay: closes its contact a while after it is energised.",
  shape: record("a delay relay", fields, { orNone: true, ways: [{ needs: ["waitsFor", "below"] }] }),
  feeds: true,
  build,
  links: ({ waitsFor }) => (waitsFor === null ? [] : [{ path: "waitsFor", name: waitsFor, to: ["motor"] }]),
});
