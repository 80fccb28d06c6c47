import { loadTorque_Nm, type MotorParameters, synchronousSpeed_radps } from "@startgap/circuit";
import type { SpeedCurve, TorqueSpeedInput } from "@startgap/figures";
import type { Check } from "@startgap/study";
import { slipTable } from "../slipTable.ts";
import { volts } from "../text/numbers.ts";

/** A hundred steps from rest to synchronous speed. */
const SLIPS = Array.from({ length: 101 }, (_, k) => (100 - k) / 100);
const RADPS_PER_RPM = Math.PI / 30;

/** Torque at the shaft, which is what the load feels. */
function speedCurve(motor: MotorParameters, voltage_V: number, says: string): SpeedCurve {
  const rows = slipTable(motor.machine, voltage_V, SLIPS);
  return {
    says,
    speed_rpm: rows.map((row) => row.speed_rpm),
    torque_Nm: rows.map((row) => row.shaftTorque_Nm),
    current_A: rows.map((row) => row.current_A),
  };
}

/** The lowest voltage at its terminals in any case; null when it was never switched on. */
function lowest_V(part: string, { report }: Check): number | null {
  const all = report.cases
    .flatMap((c) => c.motors.filter((m) => m.part === part).map((m) => m.lowestVoltage_V))
    .filter((v): v is number => v !== null);
  return all.length === 0 ? null : Math.min(...all);
}

/** A motor's torque and current over speed at its rated voltage and at the lowest that it sees, against its load. */
export function torqueSpeedInput(motor: MotorParameters, check: Check): TorqueSpeedInput {
  const { machine, drives, name } = motor;
  const synchronous = synchronousSpeed_radps(machine);
  const nominal = speedCurve(motor, machine.voltage_V, volts(machine.voltage_V));
  const low = lowest_V(name, check);
  return {
    part: name,
    nominal,
    sagged: low === null ? null : speedCurve(motor, low, `sagged, ${volts(low)}`),
    load: {
      speed_rpm: nominal.speed_rpm,
      torque_Nm: nominal.speed_rpm.map((rpm) => loadTorque_Nm(drives, rpm * RADPS_PER_RPM, synchronous)),
    },
    switchOpens_rpm:
      machine.startSwitch === null ? null : (machine.startSwitch.opens * synchronous) / RADPS_PER_RPM,
  };
}
