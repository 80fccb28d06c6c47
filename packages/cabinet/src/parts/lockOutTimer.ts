import type { LockOutTimerParameters } from "@startgap/circuit";
import { may, need, type RecordOf, record } from "../shape/record.ts";
import { oneOf, quantity, text } from "../shape/scalars.ts";
import { assumed } from "./common.ts";
import { type Built, controlFields, isField, kind, type Surroundings } from "./kind.ts";

const fields = {
  is: isField("lock-out timer"),
  ...controlFields,
  watches: need(
    text("the name of the part whose voltage it watches", 60, "control transformer"),
    "Name of the part at whose output it watches the voltage.",
  ),
  leg: may(
    oneOf("a leg of the transformer that it watches", ["first", "second", "both"]),
    "Which output of a two-leg autotransformer it watches: the first when silent.",
  ),
  lockOut: need(
    quantity("time", { from: "0 s", to: "1 h", example: "60 s" }),
    "How long its contact stays open after the voltage is back.",
  ),
  below: may(
    quantity("ratio", { a: "a share of nominal voltage", from: "5 %", to: "98 %", example: "70 %" }),
    "Share of nominal voltage below which the voltage counts as lost: 70 % when silent.",
  ),
  ridesThrough: may(
    quantity("time", { from: "0 s", to: "60 s", example: "20 ms" }),
    "How long it stays closed without voltage: 20 ms when silent.",
  ),
} as const;

type Spec = RecordOf<typeof fields>;

const NO_SOURCE = "common practice, no source";
const BELOW = 0.7;
const RIDES_THROUGH_S = 0.02;

function build(spec: Spec, around: Surroundings): Built {
  const parameters: LockOutTimerParameters = {
    is: "lock-out timer",
    name: around.name,
    watches: spec.watches,
    leg: spec.leg ?? "first",
    lockOut_s: spec.lockOut.nominal,
    below: spec.below?.nominal ?? BELOW,
    ridesThrough_s: spec.ridesThrough?.nominal ?? RIDES_THROUGH_S,
  };
  const { name } = around;
  const assumptions = [
    ...(spec.below === null
      ? [assumed(name, "voltage that it counts as lost", "70 %", "50 % to 80 %", NO_SOURCE)]
      : []),
    ...(spec.ridesThrough === null
      ? [assumed(name, "dip that it rides through", "20 ms", "10 ms to 100 ms", NO_SOURCE)]
      : []),
  ];
  return { parameters, assumptions, notes: [] };
}

/** A timer that keeps a contactor off for a while after the voltage was lost. */
export const lockOutTimer = kind<Spec>({
  is: "lock-out timer",
  doc: "A timer whose contact opens when a voltage is lost, and stays open for a while after it is back.",
  shape: record("a lock-out timer", fields),
  feeds: false,
  build,
  links: (spec) => [{ path: "watches", name: spec.watches, to: "feeding" }],
});
