import { MOTOR_INSULATIONS } from "../facts.ts";
import { CODE_LETTERS } from "../motor/codeLetter.ts";
import { MOTOR_TYPES, type Nameplate } from "../motor/nameplate.ts";
import type { Range } from "../quantity.ts";
import { may, need, type RecordOf, record } from "../shape/record.ts";
import { number, oneOf, quantity } from "../shape/scalars.ts";
import { inertia } from "./drives.ts";

const current = (to: string, example: string) => quantity("current", { from: "0.05 A", to, example });
const torque = quantity("torque", { from: "0.001 N m", to: "1000 N m", example: "14 N m" });

const fields = {
  power: may(
    quantity("power", { from: "10 W", to: "15 kW", example: "1.5 hp" }),
    "Rated power at the shaft.",
  ),
  voltage: need(quantity("voltage", { from: "20 V", to: "600 V", example: "115 V" }), "Rated voltage."),
  frequency: may(
    quantity("frequency", { from: "45 Hz", to: "65 Hz", example: "60 Hz" }),
    "Rated frequency: the supply's when silent.",
  ),
  fullLoadCurrent: may(current("300 A", "18 A"), "Full-load current."),
  speed: may(quantity("speed", { from: "200 rpm", to: "4200 rpm", example: "1725 rpm" }), "Full-load speed."),
  type: may(oneOf("a type of motor", MOTOR_TYPES), "How it starts: capacitor-start when silent."),
  codeLetter: may(oneOf("a code letter", CODE_LETTERS), "Code letter for locked-rotor kVA per horsepower."),
  lockedRotorCurrent: may(current("3 kA", "96 A"), "Locked-rotor current, instead of the code letter."),
  serviceFactor: may(number({ a: "a service factor", from: 0.8, to: 2, example: 1.15 }), "Service factor."),
  insulation: may(
    oneOf("an insulation class", MOTOR_INSULATIONS),
    "Insulation class: B when silent. Judged, not simulated.",
  ),
  startCapacitor: may(
    quantity("capacitance", { from: "1 uF", to: "5000 uF", example: "400 uF" }),
    "Start capacitor.",
  ),
  runCapacitor: may(
    quantity("capacitance", { from: "0.1 uF", to: "1000 uF", example: "40 uF" }),
    "Run capacitor.",
  ),
  lockedRotorTorque: may(torque, "Torque at standstill."),
  breakdownTorque: may(torque, "Greatest torque when running."),
  powerFactor: may(
    number({ a: "a power factor", from: 0.2, to: 1, example: 0.75 }),
    "Power factor at full load.",
  ),
  efficiency: may(
    quantity("ratio", { a: "an efficiency", from: "10 %", to: "95 %", example: "72 %" }),
    "Efficiency at full load.",
  ),
  inertia: may(inertia, "Inertia of the rotor alone."),
} as const;

type Keys = RecordOf<typeof fields>;

/** What a motor's plate says. */
export const nameplate = record("a nameplate", fields, {
  example: `{ "power": "1.5 hp", "voltage": "115 V", "fullLoadCurrent": "18 A", ... }`,
});

const nominal = (range: Range | null): number | null => range?.nominal ?? null;

/** The plate as the fit of a circuit takes it. */
export const plateOf = (keys: Keys, frequency_Hz: number): Nameplate => ({
  voltage_V: keys.voltage.nominal,
  frequency_Hz: keys.frequency?.nominal ?? frequency_Hz,
  power_W: nominal(keys.power),
  fullLoadCurrent_A: nominal(keys.fullLoadCurrent),
  speed_rpm: nominal(keys.speed),
  type: keys.type,
  lockedRotorCurrent_A: nominal(keys.lockedRotorCurrent),
  codeLetter: keys.codeLetter,
  serviceFactor: nominal(keys.serviceFactor),
  startCapacitor_F: nominal(keys.startCapacitor),
  runCapacitor_F: nominal(keys.runCapacitor),
  lockedRotorTorque_Nm: nominal(keys.lockedRotorTorque),
  breakdownTorque_Nm: nominal(keys.breakdownTorque),
  powerFactor: nominal(keys.powerFactor),
  efficiency: nominal(keys.efficiency),
  inertia_kgm2: nominal(keys.inertia),
});
