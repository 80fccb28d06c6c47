import { run } from "@startgap/ode";
import { describe, expect, it } from "vitest";
import { asStated, type CircuitPlant, plantOf, type ReceiverMode } from "../src/index.ts";
import { circuit, motor, supply } from "./build.ts";
import {
  CFM_m3ps,
  compressor,
  GALLON_m3,
  PSI_Pa,
  pressureSwitch,
  receiver,
  withControls,
} from "./buildControls.ts";

const ATMOSPHERE_Pa = 101_325;
const synchronous = 60 * Math.PI;

/** An unloaded motor that delivers `cfm` at synchronous speed, within a hair of which it settles. */
const pumping = (cfm: number, more: Parameters<typeof receiver>[1] = {}, switches = [[0, 1000]]) =>
  plantOf(
    withControls(
      [
        supply(110),
        motor("pump", "supply", {
          compressor: compressor({
            delivers: { receiver: "tank", flow_m3ps: cfm * CFM_m3ps, atSpeed_radps: synchronous },
          }),
        }),
      ],
      receiver("tank", more),
      ...switches.map(([cutIn, cutOut], i) => pressureSwitch(`switch ${i + 1}`, cutIn, cutOut)),
    ),
  );

/** The motor already at the speed at which it settles. */
const upToSpeed = (plant: CircuitPlant) => {
  const { end } = run(plant, plant.start(), 20, { tolerance: 1e-9 });
  const pressure = plant.stateNames.indexOf("pressure of tank");
  const y = end.y.slice();
  y[pressure] = plant.start().y[pressure];
  return { from: { ...end, y }, share: y[plant.layout.places[1].state] / synchronous };
};

describe("pump-up (closed form: t = V (p2 - p1)/(pa Q), printed values of the trade's handbooks)", () => {
  it.each([
    ["60 US gal, 95 to 125 psig, 10 cfm: 1.637 min", 60, 95, 125, 10, 1.637],
    ["20 US gal, 90 to 120 psig, 4 cfm: 1.364 min", 20, 90, 120, 4, 1.364],
    ["80 US gal, 0 to 175 psig, 14 cfm: 9.09 min", 80, 0, 175, 14, 9.09],
  ] as const)("%s", (_, gallons, low, high, cfm, minutes) => {
    const tank = { volume_m3: gallons * GALLON_m3, pressure_Pa: low * PSI_Pa };
    const plant = pumping(cfm, tank, [[low, high]]);
    const { from, share } = upToSpeed(plant);
    const { events, count } = run(plant, from, from.t + 3600);
    const lasts = (events.find(({ name }) => name === "switch 1: cuts out")?.t ?? 0) - from.t;
    const exact = (tank.volume_m3 * (high - low) * PSI_Pa) / (ATMOSPHERE_Pa * cfm * CFM_m3ps * share);
    expect(Math.abs(lasts / exact - 1)).toBeLessThan(1e-9);
    expect(Math.abs((lasts * share) / 60 / minutes - 1)).toBeLessThan(1e-3);
    // Hours at steady speed cost a few evaluations.
    expect(count.evaluations).toBeLessThan(200);
  });

  it("stands at the very pressure while the speed still dies away: the closed form agrees with integration", () => {
    const plant = pumping(10);
    const pressure = plant.stateNames.indexOf("pressure of tank");
    const ends = [plant, { ...plant, rest: undefined }].map(
      (one) => run(one, plant.start(), 6, { tolerance: 1e-9 }).end.y[pressure],
    );
    expect(Math.abs(ends[0] / ends[1] - 1)).toBeLessThan(1e-7);
  });
});

it("gets nothing from a compressor that turns with its unloader open (closed form: the pressure stands)", () => {
  const unloader = { switch: "s" };
  const into = { receiver: "tank", flow_m3ps: 10 * CFM_m3ps, atSpeed_radps: synchronous };
  const pump = motor("pump", "supply", { compressor: compressor({ unloader, delivers: into }) });
  const tank = receiver("tank", { pressure_Pa: 90 * PSI_Pa });
  const plant = plantOf(withControls([supply(110), pump], tank, pressureSwitch("s", 95, 125)));
  const { events, end } = run(plant, plant.start(), 3600);
  expect(events.some(({ name }) => name === "s: cuts out")).toBe(true);
  expect(end.y[plant.layout.places[1].state]).toBeGreaterThan(0.9 * synchronous);
  const pressure = end.y[plant.stateNames.indexOf("pressure of tank")];
  expect(Math.abs(pressure / (125 * PSI_Pa) - 1)).toBeLessThan(1e-6);
});

describe("demand", () => {
  const idle = { ...asStated, connects_s: () => Number.POSITIVE_INFINITY };

  it("draws the pressure down in a straight line (closed form)", () => {
    const plant = pumping(0, { pressure_Pa: 6e5, demand: [{ from_s: 0, flow_m3ps: 1e-3 }] });
    const { end } = run(plant, plant.start(idle), 60);
    expect(end.y[1]).toBeCloseTo(6e5 - (ATMOSPHERE_Pa * 1e-3 * 60) / (60 * GALLON_m3), 3);
  });

  it("changes at its times of day, the same every day", () => {
    const demand = [
      { from_s: 0, flow_m3ps: 0 },
      { from_s: 3600, flow_m3ps: 1e-4 },
      { from_s: 7200, flow_m3ps: 0 },
    ];
    const plant = pumping(0, { pressure_Pa: 9e5, demand });
    const { end, events } = run(plant, plant.start(idle), 3 * 86_400);
    expect(events.map(({ t }) => t)).toEqual(
      [0, 1, 2].flatMap((d) => [1, 2, 24].map((h) => 86_400 * d + 3600 * h)),
    );
    const drawn = (3 * ATMOSPHERE_Pa * 1e-4 * 3600) / (60 * GALLON_m3);
    expect(Math.abs(end.y[1] / (9e5 - drawn) - 1)).toBeLessThan(1e-12);
  });

  it("finds no more air than there is, and the pressure rises again from nothing", () => {
    const demand = [
      { from_s: 0, flow_m3ps: 1e-2 },
      { from_s: 600, flow_m3ps: 0 },
    ];
    const plant = pumping(10, { pressure_Pa: 1e5, demand });
    const script = { ...asStated, connects_s: () => 900 };
    const { events, end } = run(plant, plant.start(script), 1000);
    const names = events.filter(({ name }) => name.startsWith("tank")).map(({ name }) => name);
    expect(names).toEqual(["tank: runs empty", "tank: demand changes", "tank: has air again"]);
    expect(events[0].t).toBeCloseTo((1e5 * 60 * GALLON_m3) / (ATMOSPHERE_Pa * 1e-2), 8);
    expect(end.y[1]).toBeGreaterThan(1000);
  });
});

describe("relief valve", () => {
  it("holds the pressure at its setting while more comes than is drawn, and shuts a tenth below it", () => {
    const demand = [
      { from_s: 0, flow_m3ps: 0 },
      { from_s: 3600, flow_m3ps: 1e-2 },
    ];
    const plant = pumping(10, { pressure_Pa: 9e5, relief_Pa: 1e6, demand });
    const { events, end } = run(plant, plant.start(), 3590);
    expect(events.at(-1)?.name).toBe("tank: relief valve lifts");
    expect(end.y[1]).toBeCloseTo(1e6, 0);
    const later = run(plant, end, 3700);
    const shuts = later.events.find(({ name }) => name === "tank: relief valve shuts");
    expect(shuts).toBeDefined();
    expect((later.end.mode[2] as ReceiverMode).held).toBeNull();
  });
});

describe("pressure switch", () => {
  it("cycles between its two pressures (closed form for both halves)", () => {
    const flow = 1e-3;
    const parts = [supply(110), motor("pump", "supply")];
    const drawn = receiver("tank", { pressure_Pa: 8e5, demand: [{ from_s: 0, flow_m3ps: flow }] });
    const plant = plantOf(withControls(parts, drawn, pressureSwitch("s", 95, 125)));
    const { events } = run(plant, plant.start(), 600);
    const expected = ((8e5 - 95 * PSI_Pa) * drawn.volume_m3) / (ATMOSPHERE_Pa * flow);
    expect(events.find(({ name }) => name === "s: cuts in")?.t).toBeCloseTo(expected, 6);
  });

  it("says so when its receiver is none", () => {
    const parts = circuit(supply(110)).parts;
    expect(() => plantOf(withControls(parts, receiver("x"), pressureSwitch("s", 95, 125, "supply")))).toThrow(
      "invalid receiver of s",
    );
  });
});
