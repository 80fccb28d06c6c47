export {
  type LegCurrents,
  legCurrents,
  legVoltages,
  seenFromInput,
  seenFromLeg,
  seenFromSecond,
  sourceSeenFromLeg,
  turnsShares,
  type Windings,
} from "./legs.ts";
export { efficiencyAt, type Losses, lossAt_W, ratedLosses, regulationAt } from "./losses.ts";
export type { Phasor } from "./phasor.ts";
export {
  type ReconnectedRatings,
  type Reconnection,
  reconnected,
  type Sides,
  sidesAt,
  throughRating_VA,
} from "./reconnection.ts";
export type { TestReading, TransformerFound, TransformerSpec } from "./spec.ts";
export { transformerFrom } from "./transformer.ts";
