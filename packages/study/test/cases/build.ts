import type {
  Circuit,
  Compressor,
  ControlParameters,
  LoadTorque,
  MeltTerms,
  PartParameters,
  PressureSwitchParameters,
  ReceiverParameters,
} from "@startgap/circuit";
import { circuit, coil, contactor, motor, relay, supply } from "../build.ts";

/** Lags and levels of what a dip works on. */
export interface Devices {
  readonly dropOut_s: number;
  readonly pullIn_s: number;
  readonly reset_s: number;
  /** Of the coil's rated voltage. */
  readonly dropOut: number;
}

export const USUAL: Devices = { dropOut_s: 0.015, pullIn_s: 0.02, reset_s: 0.1, dropOut: 0.7 };

/**
 * Two motors behind a contactor on a line without any impedance, the second held back: voltages are exactly those of
 * the line, so that what lets go, and when, is told by lags and levels alone. The shafts hardly slow down in a second.
 */
export const stiffPair = (devices: Devices = USUAL, more: readonly PartParameters[] = []): Circuit => {
  const heavy = {
    inertia_kgm2: 0.1,
    drives: { atRest_Nm: 0, atFullSpeed_Nm: 0.4, shape: "square" },
  } as const;
  return circuit(
    supply(120, 0, 0),
    contactor(
      "contactor",
      "panel",
      coil("panel", {
        pullIn_V: 0.8 * 120,
        dropOut_V: devices.dropOut * 120,
        pullInTime_s: devices.pullIn_s,
        dropOutTime_s: devices.dropOut_s,
      }),
    ),
    motor("pump 1", "contactor", heavy),
    { ...relay("relay", "contactor", 12), reset_s: devices.reset_s },
    motor("pump 2", "relay", heavy),
    ...more,
  );
};

/** A fuse of one thermal term: everything about it has a closed form. */
export const oneTerm = (minimumFusing_A: number, tau_s: number): MeltTerms => ({
  minimumFusing_A,
  share: [1],
  tau_s: [tau_s],
});

/** Heat of such a fuse after a constant current, from the heat it had. */
export const heated = (
  { minimumFusing_A, tau_s }: MeltTerms,
  current_A: number,
  lasts_s: number,
  from = 0,
): number => {
  const end = (current_A / minimumFusing_A) ** 2;
  return end + (from - end) * Math.exp(-lasts_s / tau_s[0]);
};

/** When it melts under a constant current from cold. */
export const melts_s = ({ minimumFusing_A, tau_s }: MeltTerms, current_A: number): number =>
  -tau_s[0] * Math.log1p(-((minimumFusing_A / current_A) ** 2));

export const torque = (atRest_Nm: number, atFullSpeed_Nm: number): LoadTorque => ({
  atRest_Nm,
  atFullSpeed_Nm,
  shape: "square",
});

export const compressor = (more: Partial<Compressor> = {}): Compressor => ({
  loaded: torque(2, 1.2),
  coldOil: torque(1.2, 1),
  unloader: "none",
  fills_s: 2,
  vents_s: 1,
  leaks_s: Number.POSITIVE_INFINITY,
  delivers: null,
  ...more,
});

const PSI_Pa = 6894.757293168361;

export const receiver = (name: string, more: Partial<ReceiverParameters> = {}): ReceiverParameters => ({
  is: "receiver",
  name,
  volume_m3: 0.2,
  pressure_Pa: 95 * PSI_Pa,
  demand: [{ from_s: 0, flow_m3ps: 0 }],
  relief_Pa: null,
  ...more,
});

export const pressureSwitch = (name: string, of: string, cutOut_psi = 125): PressureSwitchParameters => ({
  is: "pressure switch",
  name,
  receiver: of,
  cutIn_Pa: 95 * PSI_Pa,
  cutOut_Pa: cutOut_psi * PSI_Pa,
});

export const withControls = (of: Circuit, ...controls: readonly ControlParameters[]): Circuit => ({
  ...of,
  controls,
});
