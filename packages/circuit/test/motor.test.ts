import { run } from "@startgap/ode";
import { describe, expect, it } from "vitest";
import type { CircuitPlant, LoadTorque, Mode, MotorMode } from "../src/index.ts";
import { plantOf, steadyState } from "../src/index.ts";
import { blankMachineAt, machineAdmittance } from "../src/machineAdmittance.ts";
import { circuit, contactor, fuse, motor, quarterHorse, supply } from "./build.ts";

const synchronous = 60 * Math.PI;
const square = (atRest_Nm: number, atFullSpeed_Nm: number): LoadTorque => ({
  atRest_Nm,
  atFullSpeed_Nm,
  shape: "square",
});
const on110V = (more = {}): CircuitPlant => plantOf(circuit(supply(110), motor("pump", "supply", more)));
const modeOf = (mode: Mode, part: number): MotorMode => mode[part] as MotorMode;

/** Speed at a time of a run, off its own interior records. */
const speedsOf = (plant: CircuitPlant, tEnd: number, tolerance = 1e-9) => {
  const seen: { t: number; speed: number }[] = [];
  const state = plant.layout.places.at(-1)?.state ?? 0;
  const sample = (t: number, y: readonly number[]): void => void seen.push({ t, speed: y[state] });
  const result = run(plant, plant.start(), tEnd, { tolerance, recorder: { interior: true, sample } });
  return { result, seen, at: (t: number) => seen.findLast((one) => one.t <= t)?.speed ?? Number.NaN };
};

describe("quarter-horsepower machine on a stiff 110 V (published data)", () => {
  it("takes 17.49 A at standstill, within 0.2 %", () => {
    const plant = on110V();
    const { y, mode } = plant.start();
    const { ir, ii } = plant.solve(y, mode);
    expect(Math.abs(Math.hypot(ir[1], ii[1]) / 17.49 - 1)).toBeLessThan(2e-3);
  });

  it("breaks away against 3.99 N m and not against 4.01 N m", () => {
    const broke = [3.99, 4.01].map((torque) =>
      run(on110V({ drives: square(torque, torque) }), on110V().start(), 0.1).events.map(({ name }) => name),
    );
    expect(broke).toEqual([["pump: breaks away"], []]);
  });

  it("reaches 75 % of synchronous speed unloaded at 0.458 s, within 0.5 %, and opens its switch there", () => {
    const { result, at } = speedsOf(on110V(), 2);
    const [breaks, opens] = result.events;
    expect(breaks).toEqual({ name: "pump: breaks away", t: 0 });
    expect(opens.name).toBe("pump: start switch opens");
    expect(Math.abs(opens.t / 0.458 - 1)).toBeLessThan(5e-3);
    expect(at(opens.t) / synchronous).toBeCloseTo(0.75, 9);
  });
});

describe("shaft", () => {
  it("stays still when stuck: no event, no speed, locked-rotor current to the end", () => {
    const plant = on110V({ drives: square(5, 5) });
    const { result, seen } = speedsOf(plant, 5);
    expect(result.events).toEqual([]);
    expect(seen.every(({ speed }) => speed === 0)).toBe(true);
    const { ir, ii } = plant.solve(result.end.y, result.end.mode);
    expect(Math.hypot(ir[1], ii[1])).toBeCloseTo(17.488, 2);
  });

  it("breaks away when the voltage comes back, exactly as its torque meets the load (closed form)", () => {
    const drives = square(2.6, 2.6);
    const plant = plantOf(
      circuit(
        supply(115, 1),
        motor("fan", "supply", { inertia_kgm2: 0.02 }),
        motor("pump", "supply", { drives }),
      ),
    );
    const { events } = run(plant, plant.start(), 3, { tolerance: 1e-10 });
    const breaks = events.find(({ name }) => name === "pump: breaks away");
    expect(breaks?.t).toBeGreaterThan(0.05);
    // At that moment, from the standing reached just then:
    const { end } = run(plant, plant.start(), breaks?.t ?? 0, { tolerance: 1e-10 });
    const { vr, vi } = plant.solve(end.y, end.mode);
    const standstill = steadyState(quarterHorse, Math.hypot(vr[0], vi[0]), 1, true);
    expect(standstill.torque_Nm).toBeCloseTo(2.6, 7);
  });

  it("accelerates by torque over inertia, with the square of the voltage (closed form)", () => {
    const accelerations = [110, 99, 77].map((voltage_V) => {
      const plant = plantOf(circuit(supply(voltage_V), motor("pump", "supply")));
      const { mode } = run(plant, plant.start(), 1e-4).end;
      const rate = [0];
      plant.derivative(0, [0.6 * synchronous], mode, rate);
      return rate[0];
    });
    const { torque_Nm } = steadyState(quarterHorse, 110, 0.4, true);
    expect(accelerations[0]).toBeCloseTo(torque_Nm / 0.0146, 9);
    expect(accelerations[1] / accelerations[0]).toBeCloseTo(0.81, 12);
    expect(accelerations[2] / accelerations[0]).toBeCloseTo(0.49, 12);
  });

  it("settles where the machine's torque meets load and windage (independent code: steadyState)", () => {
    const drives: LoadTorque = { atRest_Nm: 0.2, atFullSpeed_Nm: 0.7, shape: "linear" };
    const machine = { ...quarterHorse, rotationalLoss_W: 20 };
    const { end } = run(on110V({ drives, machine }), on110V().start(), 20, { tolerance: 1e-8 });
    const slip = 1 - end.y[0] / synchronous;
    const { shaftTorque_Nm } = steadyState(machine, 110, slip, false);
    expect(shaftTorque_Nm).toBeCloseTo(0.2 + 0.5 * (1 - slip), 6);
  });
});

/** Melts at a set heat of the running current, so that the motor is left without voltage at speed. */
const melt = { minimumFusing_A: 2.5, share: [1], tau_s: [60] };

describe("without voltage (closed form)", () => {
  const coasting = (drives: LoadTorque, rotationalLoss_W = 0) => {
    const machine = { ...quarterHorse, rotationalLoss_W };
    const plant = plantOf(
      circuit(supply(110), fuse("f", "supply", melt), motor("m", "f", { drives, machine })),
    );
    const told = speedsOf(plant, 60);
    const time = (name: string): number => told.result.events.find((event) => event.name === name)?.t ?? NaN;
    return { ...told, time, melted: time("f: melts"), from: told.at(time("f: melts")) };
  };

  it("a constant load stops the shaft after J omega/T, the switch recloses on the way, then all is still", () => {
    const { result, time, melted, from, seen } = coasting({
      atRest_Nm: 0.8,
      atFullSpeed_Nm: 0.8,
      shape: "linear",
    });
    const names = result.events.map(({ name }) => name);
    expect(names).toEqual([
      "m: breaks away",
      "m: start switch opens",
      "f: melts",
      "m: start switch closes",
      "m: comes to rest",
    ]);
    expect(time("m: comes to rest") - melted).toBeCloseTo((0.0146 * from) / 0.8, 7);
    expect(time("m: start switch closes") - melted).toBeCloseTo(
      (0.0146 * (from - 0.45 * synchronous)) / 0.8,
      7,
    );
    expect(result.end.y.at(-1)).toBe(0);
    expect(seen.every(({ speed }) => speed > -1e-8)).toBe(true);
  });

  it("a square load with friction stops it after J/sqrt(ab) atan(omega sqrt(b/a))", () => {
    const { time, melted, from } = coasting(square(0.3, 1.1));
    const [a, b] = [0.3, 0.8 / synchronous ** 2];
    const expected = (0.0146 / Math.sqrt(a * b)) * Math.atan(from * Math.sqrt(b / a));
    expect(time("m: comes to rest") - melted).toBeCloseTo(expected, 6);
  });

  it("friction and windage stop it after (J/k) ln(1 + k omega/a)", () => {
    const { time, melted, from } = coasting({ atRest_Nm: 0.5, atFullSpeed_Nm: 0.5, shape: "linear" }, 60);
    const k = 60 / synchronous ** 2;
    expect(time("m: comes to rest") - melted).toBeCloseTo((0.0146 / k) * Math.log(1 + (k * from) / 0.5), 6);
  });
});

describe("contacts of its own", () => {
  it("is out of circuit before it is connected", () => {
    const plant = on110V();
    const start = plant.start({ delay_s: (_, s) => s, connects_s: () => 0.25 });
    const { ir } = plant.solve(start.y, start.mode);
    expect(ir[1]).toBe(0);
    expect(plant.isLive(1, start.mode)).toBe(false);
    const { events, end } = run(plant, start, 0.3);
    expect(events).toEqual([
      { name: "pump: is connected", t: 0.25 },
      { name: "pump: breaks away", t: 0.25 },
    ]);
    expect(plant.isLive(1, end.mode)).toBe(true);
    expect(run(plant, plant.start({ delay_s: (_, s) => s, connects_s: () => Infinity }), 9).events).toEqual(
      [],
    );
  });

  it("a machine without a switch keeps its branch in circuit at every speed", () => {
    const machine = { ...quarterHorse, startCapacitor: null, runCapacitor: { r_ohm: 9, x_ohm: 60 } };
    const plant = on110V({ machine: { ...machine, startSwitch: null } });
    const { end, events } = run(plant, plant.start(), 5);
    expect(events.map(({ name }) => name)).toEqual(["pump: breaks away"]);
    const now = blankMachineAt();
    machineAdmittance(machine)(1 - end.y[0] / synchronous, true, now);
    expect(plant.solve(end.y, end.mode).ir[1]).toBeCloseTo(110 * now.gr, 10);
    expect(modeOf(end.mode, 1).startSwitch).toBe(true);
  });

  it("never runs backwards, though the voltage is taken from it as it breaks away", () => {
    const coil = { rated_V: 120, fedBy: "supply", leg: "first", pullIn_V: 100, dropOut_V: 80 } as const;
    const lags = { pullInTime_s: 0.02, dropOutTime_s: 0 };
    const plant = plantOf(
      circuit(
        supply(120, 4),
        contactor("contactor", "supply", { ...coil, ...lags }),
        motor("a motor", "contactor", { drives: square(0.5, 1) }),
      ),
    );
    const { seen, result } = speedsOf(plant, 1, 1e-6);
    expect(result.events.filter(({ name }) => name === "a motor: comes to rest").length).toBeGreaterThan(10);
    expect(seen.every(({ speed }) => speed > -1e-8)).toBe(true);
  });
});
