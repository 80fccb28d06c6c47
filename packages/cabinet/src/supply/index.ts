export type {
  GeneratorParameters,
  InverterParameters,
  LegOf,
  MeterAccuracy,
  MeterReading,
  SupplyFound,
  SupplySpec,
} from "./spec.ts";
export { supplyFrom } from "./supply.ts";
