export {
  type AmpacityRow,
  ambientCorrection,
  ampacityBasis,
  copperAmpacity,
  copperAmpacity_A,
  type RatedTemperature,
  smallConductorLimit_A,
} from "./ampacity.ts";
export { type CableSpec, cableImpedance } from "./cable.ts";
export { type Conductor, conductorNamed, conductorNames, type Metal } from "./conductor.ts";
export { onderdonkFusing_A, preeceFusing_A } from "./fusing.ts";
export type { ImpedanceRange } from "./impedance.ts";
export { conductorReactance_ohmPerM, type Run, runs } from "./reactance.ts";
export { type Build, conductorResistance_ohmPerM } from "./resistance.ts";
export {
  adiabaticArea_m2,
  adiabaticK,
  iceaWithstand_A,
  type ShortCircuitLimit,
  shortCircuitLimits,
  withstand_A2s,
} from "./shortTime.ts";
export { gaugeArea_m2, gaugeDiameter_m } from "./sizes.ts";
