import type { CableSpec } from "../cable/cable.ts";
import type { LegOf, MeterAccuracy, SupplySpec } from "../supply/spec.ts";
import { ohms, silent } from "./common.ts";
import type {
  Forms,
  GeneratorKeys,
  InverterKeys,
  LegKeys,
  MeterKeys,
  ReadingKeys,
  UtilityKeys,
} from "./supplyKeys.ts";
import { wireOf } from "./wire.ts";

interface Nominal {
  readonly voltage_V: number;
  readonly frequency_Hz: number;
}

/** The way that was taken, as the supply's own module takes it, and the key under which its problems stand. */
export function formOf(keys: Forms, nominal: Nominal): { readonly spec: SupplySpec; readonly under: string } {
  if (keys.impedance !== null) {
    return { spec: { ...nominal, from: "impedance", impedance: ohms(keys.impedance) }, under: "" };
  }
  if (keys.transformer !== null) return { spec: utility(keys.transformer, nominal), under: "transformer" };
  if (keys.readings !== null) return { spec: readings(keys, keys.readings, nominal), under: "" };
  if (keys.generator !== null) return { spec: generatorOf(keys.generator, nominal), under: "generator" };
  if (keys.inverter !== null) return { spec: inverterOf(keys.inverter, nominal), under: "inverter" };
  const faultCurrent_A = keys.faultCurrent!.nominal;
  return {
    spec: { ...nominal, from: "fault current", faultCurrent_A, xOverR: silent(keys.xOverR) },
    under: "",
  };
}

function utility(keys: UtilityKeys, nominal: Nominal): SupplySpec {
  const wire: CableSpec | undefined =
    keys.service === null ? undefined : wireOf(keys.service, nominal.frequency_Hz);
  return {
    ...nominal,
    from: "utility transformer",
    rating_VA: keys.rating.nominal,
    impedance_percent: silent(keys.impedance, 100),
    xOverR: silent(keys.xOverR),
    service: wire,
  };
}

function readings(keys: Forms, list: readonly ReadingKeys[], nominal: Nominal): SupplySpec {
  return {
    ...nominal,
    from: "readings",
    readings: list.map(({ voltage, current }) => ({
      voltage_V: voltage.nominal,
      current_A: current.nominal,
    })),
    at: keys.at === null ? "line" : legOf(keys.at),
    loadPowerFactor: silent(keys.loadPowerFactor),
    xOverR: silent(keys.xOverR),
    meter: keys.meter === null ? undefined : meterOf(keys.meter),
  };
}

const legOf = (keys: LegKeys): LegOf => ({
  windings_V: [keys.windings[0].nominal, keys.windings[1].nominal],
  leakage: ohms(keys.leakage),
});

const meterOf = (keys: MeterKeys): MeterAccuracy => ({
  voltage_percent: silent(keys.voltage, 100),
  voltageCounts: silent(keys.voltageCounts),
  voltageCount_V: silent(keys.voltageCount),
  current_percent: silent(keys.current, 100),
  currentCounts: silent(keys.currentCounts),
  currentCount_A: silent(keys.currentCount),
  oneMeter: keys.sameMeter === null ? undefined : keys.sameMeter === "yes",
});

const generatorOf = (keys: GeneratorKeys, nominal: Nominal): SupplySpec => ({
  ...nominal,
  from: "generator",
  rating_VA: keys.rating.nominal,
  transientReactance_pu: silent(keys.transientReactance),
  subtransientReactance_pu: silent(keys.subtransientReactance),
  regulatorRecovery_s: silent(keys.regulatorRecovery),
  synchronousReactance_pu: silent(keys.synchronousReactance),
  fieldTime_s: silent(keys.fieldTime),
  fieldCeiling: silent(keys.fieldCeiling),
});

const inverterOf = (keys: InverterKeys, nominal: Nominal): SupplySpec => ({
  ...nominal,
  from: "inverter",
  continuous_VA: keys.continuous.nominal,
  surgeFactor: silent(keys.surgeFactor),
  surge_s: silent(keys.surge),
  stops_s: silent(keys.stops),
});
