import { type Circuit, type CircuitPlant, type Mode, type MotorParameters, plantOf } from "@startgap/circuit";
import { run, type Standing } from "@startgap/ode";
import { describe, expect, it } from "vitest";
import { quarterHorse } from "../../support/quarterHorse.ts";
import data from "./data.json";

const CFM_m3ps = 0.3048 ** 3 / 60;
const PSI_Pa = 6894.757293168361;
const GALLON_m3 = 3.785411784e-3;
/** Any motor will do: the flow is stated at the speed at which it settles. */
const SPEED_radps = 188;

interface Tank {
  readonly gallons: number;
  readonly from_psi: number;
  readonly comes_scfm: number;
  readonly drawn_scfm: number;
}

function circuitOf({ gallons, from_psi, comes_scfm, drawn_scfm }: Tank, atSpeed_radps: number): Circuit {
  const none = { atRest_Nm: 0, atFullSpeed_Nm: 0, shape: "square" } as const;
  const pump: MotorParameters = {
    ...{ is: "motor", name: "pump", fedBy: "supply", leg: "first", machine: quarterHorse },
    ...{ inertia_kgm2: 0.0146, drives: none, fullLoad_A: null },
    compressor: {
      ...{ loaded: none, coldOil: null, unloader: "none", fills_s: 1, vents_s: 1 },
      leaks_s: Number.POSITIVE_INFINITY,
      delivers: { receiver: "tank", flow_m3ps: comes_scfm * CFM_m3ps, atSpeed_radps },
    },
  };
  return {
    title: "a receiver",
    parts: [{ is: "supply", name: "supply", voltage_V: 110, frequency_Hz: 60, r_ohm: 0, x_ohm: 0 }, pump],
    controls: [
      {
        ...{ is: "receiver", name: "tank", volume_m3: gallons * GALLON_m3, relief_Pa: null },
        pressure_Pa: from_psi * PSI_Pa,
        demand: [{ from_s: 0, flow_m3ps: drawn_scfm * CFM_m3ps }],
      },
    ],
  };
}

/** The plant with its pump at the very speed at which the flow is stated, and the tank as it was. */
function settled(tank: Tank): { plant: CircuitPlant; from: Standing<Mode>; pressure: number } {
  const rough = plantOf(circuitOf(tank, SPEED_radps));
  const { end } = run(rough, rough.start(), 20, { tolerance: 1e-9 });
  const plant = plantOf(circuitOf(tank, end.y[rough.layout.places[1].state]));
  const pressure = plant.stateNames.indexOf("pressure of tank");
  const y = end.y.slice();
  y[pressure] = tank.from_psi * PSI_Pa;
  return { plant, from: { ...end, y }, pressure };
}

describe("a receiver of the printed size (published, 0.1 %)", () => {
  for (const { name, minutes, to_psi, ...tank } of data.drawn) {
    it(`${name}: is at ${to_psi} psig after ${minutes} minutes`, () => {
      const { plant, from, pressure } = settled(tank);
      const { end } = run(plant, from, from.t + 60 * minutes, { tolerance: 1e-9 });
      const fallen = tank.from_psi - end.y[pressure] / PSI_Pa;
      expect(Math.abs(fallen / (tank.from_psi - to_psi) - 1)).toBeLessThan(1e-3);
    });
  }

  for (const { minutes, to_psi, ...tank } of data.pumpUp) {
    it(`${tank.gallons} US gal from ${tank.from_psi} psig: is at ${to_psi} psig after ${minutes} minutes`, () => {
      const { plant, from, pressure } = settled({ ...tank, drawn_scfm: 0 });
      const { end } = run(plant, from, from.t + 60 * minutes, { tolerance: 1e-9 });
      const risen = end.y[pressure] / PSI_Pa - tank.from_psi;
      expect(Math.abs(risen / (to_psi - tank.from_psi) - 1)).toBeLessThan(1e-3);
    });
  }
});
