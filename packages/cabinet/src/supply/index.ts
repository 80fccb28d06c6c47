export type {
  LegOf,
  MeterAccuracy,
  MeterReading,
  SupplyFound,
  SupplySpec,
} from "./spec.ts";
export { supplyFrom } from "./supply.ts";
