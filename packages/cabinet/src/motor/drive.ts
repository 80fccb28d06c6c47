import { type LoadTorque, type Machine, synchronousSpeed_radps } from "@startgap/circuit";
import type { Assumption } from "../grade.ts";
import { breakdown } from "./breakdown.ts";
import {
  COMPRESSOR_SHARES,
  COUPLED_INERTIA_KGM2,
  FAN_SHARES,
  type Shares,
  type StartsAgainst,
  shareOfRotor,
} from "./driveDefaults.ts";
import { assume, NO_SOURCE, type Notebook, notebook, percent, rangeText, text } from "./notebook.ts";
import { usualRotorInertia_kgm2 } from "./rotorInertia.ts";
import { USUAL_BREAKDOWN_TORQUE, type Usual, usualSlip } from "./usualValues.ts";

/** What a motor drives. An `inertia_kgm2` is that of the load alone, at the motor's shaft. */
export type DriveSpec =
  | {
      readonly is: "torque";
      readonly atRest_Nm: number;
      readonly atFullSpeed_Nm: number;
      readonly shape?: LoadTorque["shape"] | null;
      readonly inertia_kgm2: number;
    }
  | {
      readonly is: "compressor";
      readonly startsAgainst?: StartsAgainst | null;
      readonly coupling?: "direct" | "belt" | null;
      readonly inertia_kgm2?: number | null;
    }
  | { readonly is: "fan"; readonly inertia_kgm2?: number | null }
  | {
      readonly is: "pump";
      /** Share of the full-load torque that does not fall with speed, 0 to 1. */
      readonly staticHead?: number | null;
      readonly inertia_kgm2?: number | null;
    };

export interface Drive {
  readonly drives: LoadTorque;
  /** Of the load alone. */
  readonly inertia_kgm2: number;
  readonly assumptions: readonly Assumption[];
}

/** What is known of the motor's full load, as `motorFromNameplate` gives it. */
export interface FullLoad {
  readonly torque_Nm: number;
  readonly speed_rpm: number;
}

/**
 * Load torque and inertia at a motor's shaft from what the builder says of the load.
 *
 * Torques that are not stated are shares of the motor's full-load torque: fans with the square of the
 * speed, pumps with the square upon a static share, compressors in a straight line between rest and full
 * speed by what they start against. They are means over a turn: a piston's strokes are not in them.
 *
 * @param spec torques and inertia 0 or more
 * @param rated full load; null when only the circuit is known, then breakdown torque over 2.25 is taken
 * @param part name of the motor, for the assumptions
 * @returns the torque from rest to synchronous speed; every default that was taken
 * @throws RangeError for a figure that is negative or not finite
 *
 * Source: common practice, no source; each default carries its range.
 * Checked by packages/cabinet/test/motor-drive.test.ts.
 */
export function driveOf(
  spec: DriveSpec,
  machine: Machine,
  rated: FullLoad | null = null,
  part = "motor",
): Drive {
  check(spec);
  if (spec.is === "torque") {
    const { atRest_Nm, atFullSpeed_Nm, shape, inertia_kgm2 } = spec;
    return { drives: { atRest_Nm, atFullSpeed_Nm, shape: shape ?? "square" }, inertia_kgm2, assumptions: [] };
  }
  const notes = notebook(part);
  const full = rated ?? fullLoadOf(machine, notes);
  const shares = sharesOf(spec);
  return {
    drives: torqueOf(shares, full, machine, notes),
    inertia_kgm2: spec.inertia_kgm2 ?? inertiaOf(spec, full, machine, notes),
    assumptions: notes.assumptions,
  };
}

function check(spec: DriveSpec): void {
  for (const [name, value] of Object.entries(spec)) {
    if (typeof value !== "number" || (value >= 0 && value < Infinity)) continue;
    throw new RangeError(`invalid ${name}: ${value} (expected 0 or more)`);
  }
  if (spec.is === "pump" && (spec.staticHead ?? 0) > 1) {
    throw new RangeError(`invalid staticHead: ${spec.staticHead} (expected 0 to 1)`);
  }
}

/** From the circuit alone: a usual motor's breakdown torque is 2.25 times full load. */
function fullLoadOf(machine: Machine, notes: Notebook): FullLoad {
  const crest = Math.max(0, breakdown(machine, machine.voltage_V).torque_Nm);
  const { value, low, high } = USUAL_BREAKDOWN_TORQUE["capacitor-start"];
  const basis = `breakdown torque over ${value}; ${NO_SOURCE}`;
  assume(
    notes,
    "full-load torque",
    text(crest / value, "N m"),
    rangeText(crest / high, crest / low, "N m"),
    basis,
  );
  const synchronous_rpm = (120 * machine.frequency_Hz) / machine.poles;
  return { torque_Nm: crest / value, speed_rpm: (1 - usualSlip(machine.frequency_Hz)) * synchronous_rpm };
}

function sharesOf(spec: Exclude<DriveSpec, { is: "torque" }>): Shares {
  if (spec.is === "compressor") return COMPRESSOR_SHARES[spec.startsAgainst ?? "atmosphere"];
  if (spec.is === "fan" || !spec.staticHead) return FAN_SHARES;
  const rest = Math.max(spec.staticHead, FAN_SHARES.atRest.value);
  return { ...FAN_SHARES, atRest: { value: rest, low: 0, high: rest } };
}

function torqueOf(
  { atRest, atFullSpeed, shape }: Shares,
  full: FullLoad,
  machine: Machine,
  notes: Notebook,
): LoadTorque {
  const says = (what: string, share: Usual): number => {
    const range = `${percent(share.low)} to ${percent(share.high)} of full-load torque`;
    const value = `${text(share.value * full.torque_Nm, "N m")} (${percent(share.value)} of full-load torque)`;
    assume(notes, what, value, range, NO_SOURCE);
    return share.value * full.torque_Nm;
  };
  const rest = says("load torque at rest", atRest);
  const running = says("load torque at full speed", atFullSpeed);
  const speed = (full.speed_rpm * (Math.PI / 30)) / synchronousSpeed_radps(machine);
  const atFullSpeed_Nm = rest + (running - rest) / (shape === "square" ? speed ** 2 : speed);
  return { atRest_Nm: rest, atFullSpeed_Nm, shape };
}

function inertiaOf(
  spec: Exclude<DriveSpec, { is: "torque" }>,
  full: FullLoad,
  machine: Machine,
  notes: Notebook,
): number {
  const found =
    spec.is === "compressor"
      ? COUPLED_INERTIA_KGM2[spec.coupling ?? "direct"]
      : ofRotor(spec.is, full, machine);
  const how =
    spec.is === "compressor"
      ? `${spec.coupling ?? "direct"} drive`
      : `${shareOfRotor[spec.is].value} times the rotor's own`;
  assume(
    notes,
    "load inertia",
    text(found.value, "kg m2"),
    rangeText(found.low, found.high, "kg m2"),
    `${how}; ${NO_SOURCE}`,
  );
  return found.value;
}

function ofRotor(kind: "fan" | "pump", full: FullLoad, machine: Machine): Usual {
  const power = Math.max(1, full.torque_Nm * full.speed_rpm * (Math.PI / 30));
  const rotor = usualRotorInertia_kgm2(power, machine.poles).value;
  const { value, low, high } = shareOfRotor[kind];
  return { value: value * rotor, low: low * rotor, high: high * rotor };
}
