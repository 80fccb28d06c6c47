import { asStated, type Circuit, type CircuitPlant, plantOf } from "@startgap/circuit";
import { run } from "@startgap/ode";
import { describe, expect, it } from "vitest";
import { quarterHorse } from "../../support/quarterHorse.ts";
import data from "./data.json" with { type: "json" };

const GALLON_m3 = 3.785411784e-3;
const CFM_m3ps = 0.3048 ** 3 / 60;
const PSI_Pa = 6894.757293168361;

type Example = (typeof data)[number];

/** A motor on a stiff line whose compressor delivers at a known speed, a receiver with its demand, a switch that tells. */
function plantFor(one: Example, atSpeed_radps: number): CircuitPlant {
  const drives = { atRest_Nm: 0.3, atFullSpeed_Nm: 0.9, shape: "square" } as const;
  const rises = one.to_psig > one.from_psig;
  const [cutIn, cutOut] = rises ? [one.from_psig, one.to_psig] : [one.to_psig, one.from_psig + 50];
  const circuit: Circuit = {
    title: one.example,
    parts: [
      { is: "supply", name: "line", voltage_V: 110, frequency_Hz: 60, r_ohm: 0, x_ohm: 0 },
      {
        is: "motor",
        name: "motor",
        fedBy: "line",
        leg: "first",
        machine: quarterHorse,
        inertia_kgm2: 0.0146,
        drives,
        fullLoad_A: null,
        compressor: {
          loaded: drives,
          coldOil: null,
          unloader: "none",
          fills_s: 1,
          vents_s: 1,
          leaks_s: Number.POSITIVE_INFINITY,
          delivers: { receiver: "tank", flow_m3ps: one.delivered_cfm * CFM_m3ps, atSpeed_radps },
        },
      },
    ],
    controls: [
      {
        is: "receiver",
        name: "tank",
        volume_m3: one.volume_gal * GALLON_m3,
        pressure_Pa: one.from_psig * PSI_Pa,
        demand: [{ from_s: 0, flow_m3ps: one.drawn_cfm * CFM_m3ps }],
        relief_Pa: null,
      },
      {
        is: "pressure switch",
        name: "gauge",
        receiver: "tank",
        cutIn_Pa: cutIn * PSI_Pa,
        cutOut_Pa: cutOut * PSI_Pa,
      },
    ],
  };
  return plantOf(circuit);
}

/** From a settled speed and the first pressure until the switch tells of the second one, minutes. */
function minutesOf(one: Example): number {
  const settled = run(plantFor(one, 1e9), plantFor(one, 1e9).start(asStated), 20).end;
  const plant = plantFor(one, settled.y[0]);
  const mode = plant.start(asStated).mode.map((own, i) => (i === 1 ? settled.mode[1] : own));
  const { events } = run(plant, { t: 0, y: [settled.y[0], one.from_psig * PSI_Pa], mode }, 7200);
  const told = events.find(
    ({ name }) => name === "gauge: cuts out" || (name === "gauge: cuts in" && one.drawn_cfm > 0),
  );
  return (told?.t ?? Number.NaN) / 60;
}

describe("a receiver between two pressures (published, and the closed form)", () => {
  for (const one of data)
    it(`${one.example}: ${one.minutes} min (${one.mark}, ${100 * one.tolerance} %)`, () => {
      expect(Math.abs(minutesOf(one) / one.minutes - 1)).toBeLessThan(one.tolerance);
    });
});
