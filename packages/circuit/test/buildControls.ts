import type {
  Circuit,
  Compressor,
  ControlParameters,
  LockOutTimerParameters,
  PartParameters,
  PilotSwitchParameters,
  PressureSwitchParameters,
  ReceiverParameters,
} from "../src/index.ts";

/** Short ways to write controls down. */
export const GALLON_m3 = 3.785411784e-3;
export const CFM_m3ps = 0.3048 ** 3 / 60;
export const PSI_Pa = 6894.757293168361;

export const receiver = (name: string, more: Partial<ReceiverParameters> = {}): ReceiverParameters => ({
  is: "receiver",
  name,
  volume_m3: 60 * GALLON_m3,
  pressure_Pa: 0,
  demand: [{ from_s: 0, flow_m3ps: 0 }],
  relief_Pa: null,
  ...more,
});

export const pressureSwitch = (
  name: string,
  cutIn_psi: number,
  cutOut_psi: number,
  from = "tank",
): PressureSwitchParameters => ({
  is: "pressure switch",
  name,
  receiver: from,
  cutIn_Pa: cutIn_psi * PSI_Pa,
  cutOut_Pa: cutOut_psi * PSI_Pa,
});

export const pilot = (name: string, closed = true): PilotSwitchParameters => ({ is: "switch", name, closed });

export const lockOut = (
  name: string,
  watches: string,
  more: Partial<LockOutTimerParameters> = {},
): LockOutTimerParameters => ({
  is: "lock-out timer",
  name,
  watches,
  leg: "first",
  lockOut_s: 60,
  below: 0.7,
  ridesThrough_s: 0.02,
  ...more,
});

/** A compressor that asks as little empty as full, so that what is asked of a story is its air. */
export const compressor = (more: Partial<Compressor> = {}): Compressor => ({
  loaded: { atRest_Nm: 0, atFullSpeed_Nm: 0, shape: "square" },
  coldOil: null,
  unloader: "none",
  fills_s: 2,
  vents_s: 1,
  leaks_s: Number.POSITIVE_INFINITY,
  delivers: null,
  ...more,
});

export const withControls = (
  parts: readonly PartParameters[],
  ...controls: readonly ControlParameters[]
): Circuit => ({ title: "test", parts, controls });
