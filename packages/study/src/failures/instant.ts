import {
  type Circuit,
  type CircuitPlant,
  currentInto,
  type Mode,
  type MotorMode,
  magnitude,
} from "@startgap/circuit";
import type { FailureInstant, FailureMotor, FailurePoint, PointState } from "./results.ts";

const RPM = 30 / Math.PI;

/** Bounds between the four states, of nominal: 5 % is nothing a load notices; 90 and 110 % as NEMA MG 1 12.44. */
const BOUNDS = { dead: 0.05, low: 0.9, high: 1.1 } as const;

export const stateOf = (share: number): PointState => {
  if (share < BOUNDS.dead) return "dead";
  return share < BOUNDS.low ? "low" : share > BOUNDS.high ? "high" : "usual";
};

/** Something whose voltage is told, as the sound cabinet has it. */
export interface Watched {
  readonly part: string;
  readonly is: FailurePoint["is"];
  readonly nominal_V: number;
}

/** Motors, loads and coils of the cabinet as it was drawn, in its order. */
export const watchedOf = (circuit: Circuit): Watched[] =>
  circuit.parts.flatMap((p): Watched[] => {
    if (p.is === "motor") return [{ part: p.name, is: "motor", nominal_V: p.machine.voltage_V }];
    if (p.is === "load") return [{ part: p.name, is: "load", nominal_V: p.nominal_V }];
    if (p.is === "contactor" && p.coil !== null)
      return [{ part: p.name, is: "coil", nominal_V: p.coil.rated_V }];
    return [];
  });

/** Node at which a watched thing's voltage is read in an altered circuit. */
export function nodesOf(plant: CircuitPlant, watched: readonly Watched[]): number[] {
  const { circuit, places, told } = plant.layout;
  return watched.map(({ part }) => {
    const i = circuit.parts.findIndex((p) => p.name === part);
    const p = circuit.parts[i];
    return p.is === "contactor" && p.coil !== null ? places[i].nodeOf(p.coil.fedBy, p.coil.leg) : told[i];
  });
}

/** Reads a network that has been solved for this state: voltages, motors, open contacts. */
export function instantOf(
  plant: CircuitPlant,
  watched: readonly Watched[],
  at: { readonly t: number; readonly y: readonly number[]; readonly mode: Mode },
  lone: string | null,
): FailureInstant {
  const walk = plant.solve(at.y, at.mode);
  const { circuit, places } = plant.layout;
  const nodes = nodesOf(plant, watched);
  const points = watched.map(({ part, is, nominal_V }, k): FailurePoint => {
    const voltage_V = magnitude(walk, nodes[k]);
    const share = voltage_V / nominal_V;
    return { part, is, nominal_V, voltage_V, share, state: stateOf(share) };
  });
  const motors = circuit.parts.flatMap((p, i): FailureMotor[] => {
    if (p.is !== "motor") return [];
    return [
      {
        part: p.name,
        speed_rpm: at.y[places[i].state] * RPM,
        current_A: currentInto(walk, i),
        startSwitchClosed: (at.mode[i] as MotorMode).startSwitch,
      },
    ];
  });
  const open = circuit.parts.flatMap((p, i) =>
    p.is === "motor" || plant.models[i].conducts(at.mode[i]) ? [] : [p.name],
  );
  const winding = circuit.parts.findIndex((p) => p.name === lone);
  return {
    at_s: at.t,
    points,
    motors,
    open,
    winding_A: winding < 0 ? null : currentInto(walk, winding),
  };
}
