import { list } from "../shape/lists.ts";
import { may, need, type RecordOf, record } from "../shape/record.ts";
import { number, oneOf, quantity } from "../shape/scalars.ts";
import type { Value } from "../shape/shape.ts";
import { impedance, powerFactor, xOverR } from "./common.ts";
import { windingPair } from "./windings.ts";
import { wireFields } from "./wire.ts";

const rating = (a: string, example: string) =>
  quantity("apparentPower", { a, from: "100 VA", to: "10000 kVA", example });

const service = record("service conductors", wireFields, {
  ways: [{ needs: ["conductor", "length"], takes: ["temperature", "run"] }],
});

const transformer = record(
  "a utility transformer",
  {
    rating: need(rating("a transformer rating", "25 kVA"), "Rating."),
    impedance: may(
      quantity("ratio", { a: "an impedance in percent", from: "0.1 %", to: "50 %", example: "2 %" }),
      "Impedance: 2 % when silent.",
    ),
    xOverR: may(xOverR, "Reactance over resistance: 1 when silent."),
    service: may(service, "Conductors from it to the panel: none when silent."),
  },
  { example: `{ "rating": "25 kVA", "impedance": "2 %" }` },
);

const volts = quantity("voltage", { from: "10 V", to: "600 V", example: "239.4 V" });
const reading = record("a reading", {
  voltage: need(volts, "Voltage read."),
  current: need(
    quantity("current", { from: "0 A", to: "1 kA", example: "12.5 A" }),
    "Current of the test load.",
  ),
});

const leg = record("the transformer at whose first leg was read", {
  windings: need(windingPair, "Its windings, that of the loaded leg first."),
  leakage: need(impedance, "Its leakage, referred to that winding."),
});

const accuracy = quantity("ratio", { a: "an accuracy", from: "0 %", to: "20 %", example: "0.7 %" });
const counts = number({ a: "a number of counts", from: 0, to: 100, example: 2 });

const meter = record("a meter", {
  voltage: may(accuracy, "Accuracy of the voltage, in percent of the reading: 0.7 % when silent."),
  voltageCounts: may(counts, "And so many counts of the last digit: 2 when silent."),
  voltageCount: may(
    quantity("voltage", { from: "0 V", to: "100 V", example: "0.1 V" }),
    "What the last digit stands for: 0.1 V when silent.",
  ),
  current: may(accuracy, "Accuracy of the current, in percent of the reading: 2 % when silent."),
  currentCounts: may(counts, "And so many counts of the last digit: 3 when silent."),
  currentCount: may(
    quantity("current", { from: "0 A", to: "100 A", example: "0.1 A" }),
    "What the last digit stands for: 0.1 A when silent.",
  ),
  sameMeter: may(
    oneOf("whether all voltages were read on one meter and range", ["yes", "no"]),
    "Whether all voltages were read on one meter and range: yes when silent.",
  ),
});

const perUnit = (example: number) => number({ a: "a reactance per unit", from: 0.01, to: 1, example });

const generator = record(
  "a generator",
  {
    rating: need(rating("a generator rating", "7 kVA"), "Rating."),
    transientReactance: may(perUnit(0.25), "Transient reactance per unit: 0.25 when silent."),
    subtransientReactance: may(perUnit(0.15), "Subtransient reactance per unit, where it is known."),
    regulatorRecovery: may(
      quantity("time", { from: "0 s", to: "60 s", example: "2.5 s" }),
      "How long the regulator takes to bring the voltage back: 2.5 s when silent.",
    ),
    synchronousReactance: may(
      number({ a: "a synchronous reactance per unit", from: 0.1, to: 5, example: 1.8 }),
      "Synchronous reactance per unit: 1.8 when silent.",
    ),
    fieldTime: may(
      quantity("time", { from: "50 ms", to: "10 s", example: "0.6 s" }),
      "Open-circuit time constant of the field: 0.6 s when silent.",
    ),
    fieldCeiling: may(
      number({ a: "a highest field", from: 1, to: 5, example: 2 }),
      "Highest field over that of the rated load at power factor 0.8: 2 when silent.",
    ),
  },
  { example: `{ "rating": "7 kVA" }` },
);

const inverter = record(
  "an inverter",
  {
    continuous: need(rating("a continuous rating", "4 kVA"), "Continuous rating."),
    surgeFactor: may(
      number({ a: "a surge factor", from: 1, to: 10, example: 2 }),
      "Greatest current over the continuous one: 2 when silent.",
    ),
    surge: may(
      quantity("time", { from: "10 ms", to: "600 s", example: "5 s" }),
      "How long it gives more than the continuous current: 5 s when silent.",
    ),
    stops: may(
      quantity("time", { from: "0 s", to: "60 s", example: "1 s" }),
      "How long it then holds its voltage down, at the continuous current, before it shuts down: 1 s when silent.",
    ),
  },
  { example: `{ "continuous": "4 kVA" }` },
);

/** The ways of stating how stiff a supply is. */
export const formFields = {
  faultCurrent: may(
    quantity("current", { a: "a fault current", from: "10 A", to: "200 kA", example: "1.8 kA" }),
    "Current into a short circuit at the supply's terminals.",
  ),
  xOverR: may(xOverR, "Reactance over resistance, beside a fault current or readings."),
  impedance: may(impedance, "Impedance of the whole loop, out and back, outright."),
  transformer: may(transformer, "The utility's transformer."),
  readings: may(
    list("readings", reading, { from: 2, to: 1000 }),
    "Volts and amperes with less and more load, in the order they were read.",
  ),
  at: may(leg, "Where the readings were taken, if at a leg of an autotransformer."),
  loadPowerFactor: may(powerFactor, "Power factor of the test load of the readings: 1 when silent."),
  meter: may(meter, "How far the meters of the readings may be off."),
  generator: may(generator, "A portable or standby generator."),
  inverter: may(inverter, "A battery inverter."),
} as const;

export const formWays = [
  { needs: ["faultCurrent"], takes: ["xOverR"] },
  { needs: ["impedance"] },
  { needs: ["transformer"] },
  { needs: ["readings"], takes: ["xOverR", "at", "loadPowerFactor", "meter"] },
  { needs: ["generator"] },
  { needs: ["inverter"] },
] as const;

export type Forms = RecordOf<typeof formFields>;
export type UtilityKeys = Value<typeof transformer>;
export type ReadingKeys = Value<typeof reading>;
export type LegKeys = Value<typeof leg>;
export type MeterKeys = Value<typeof meter>;
export type GeneratorKeys = Value<typeof generator>;
export type InverterKeys = Value<typeof inverter>;
