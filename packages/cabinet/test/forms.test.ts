import {
  cableImpedance,
  type Issue,
  meltOf,
  motorFromNameplate,
  supplyFrom,
  transformerFrom,
} from "@startgap/cabinet";
import { describe, expect, it } from "vitest";
import {
  cabinetOf,
  circuit,
  file,
  issuesOf,
  type Json,
  load,
  midpoint,
  motor,
  part,
  paths,
  supply,
} from "./support/files.ts";

/** What a module of the package makes of a description, which must be free of issues. */
function made<T>(found: { readonly value: T } | readonly Issue[]): T {
  if ("value" in found) return found.value;
  throw new Error(JSON.stringify(found));
}

const stiff = (more: Json): Json => supply({ impedance: undefined, ...more });
const nominal = { voltage_V: 240, frequency_Hz: 60 };

describe("each way of stating a supply", () => {
  it("a fault current (closed form: |Z| = V/I, X = q R)", () => {
    const found = part(file(stiff({ faultCurrent: "1.8 kA", xOverR: 0.9 }), load()), "panel");
    if (found.is !== "supply") throw new Error(found.is);
    expect(Math.hypot(found.r_ohm, found.x_ohm)).toBeCloseTo(240 / 1800, 12);
    expect(found.x_ohm / found.r_ohm).toBeCloseTo(0.9, 12);
  });

  it.each([
    [
      "a utility transformer with its service",
      {
        transformer: {
          rating: "25 kVA",
          impedance: "2.2 %",
          xOverR: 1.5,
          service: { conductor: "2 AWG Al", length: "30 m", temperature: "40 degC", run: "plastic conduit" },
        },
      },
      {
        from: "utility transformer",
        rating_VA: 25000,
        impedance_percent: 2.2,
        xOverR: 1.5,
        service: { conductor: "2 AWG Al", length_m: 30, temperature_C: 40, run: "plastic conduit" },
      },
    ],
    [
      "readings",
      {
        readings: [
          { voltage: "241.0 V", current: "0 A" },
          { voltage: "236.0 V", current: "25 A" },
          { voltage: "241.0 V", current: "0 A" },
        ],
        xOverR: 0.4,
        loadPowerFactor: 0.98,
        meter: { voltage: "0.5 %", voltageCounts: 1, current: "1 %", sameMeter: "yes" },
      },
      {
        from: "readings",
        readings: [
          { voltage_V: 241, current_A: 0 },
          { voltage_V: 236, current_A: 25 },
          { voltage_V: 241, current_A: 0 },
        ],
        xOverR: 0.4,
        loadPowerFactor: 0.98,
        meter: { voltage_percent: 0.5, voltageCounts: 1, current_percent: 1, oneMeter: true },
      },
    ],
    [
      "readings at a leg",
      {
        readings: [
          { voltage: "120.4 V", current: "0 A" },
          { voltage: "117.6 V", current: "25 A" },
        ],
        at: { windings: ["120 V", "120 V"], leakage: { r: "0.1 ohm", x: "0.05 ohm" } },
      },
      {
        from: "readings",
        readings: [
          { voltage_V: 120.4, current_A: 0 },
          { voltage_V: 117.6, current_A: 25 },
        ],
        at: { windings_V: [120, 120], leakage: { r_ohm: 0.1, x_ohm: 0.05 } },
      },
    ],
    [
      "a generator",
      {
        generator: {
          rating: "9 kVA",
          transientReactance: 0.2,
          regulatorRecovery: "2 s",
          synchronousReactance: 2.1,
          fieldTime: "800 ms",
          fieldCeiling: 1.7,
        },
      },
      {
        from: "generator",
        rating_VA: 9000,
        transientReactance_pu: 0.2,
        regulatorRecovery_s: 2,
        synchronousReactance_pu: 2.1,
        fieldTime_s: 0.8,
        fieldCeiling: 1.7,
      },
    ],
    [
      "an inverter",
      { inverter: { continuous: "6 kVA", surgeFactor: 1.8, surge: "4 s", stops: "0.5 s" } },
      { from: "inverter", continuous_VA: 6000, surgeFactor: 1.8, surge_s: 4, stops_s: 0.5 },
    ],
  ])("%s says the same as the same in numbers", (_, keys, spec) => {
    const { r_ohm, x_ohm, voltage_V } = made(
      supplyFrom({ ...nominal, ...spec } as Parameters<typeof supplyFrom>[0]),
    );
    const bench = file(stiff(keys), load());
    const found = part(bench, "panel") as { r_ohm: number; x_ohm: number; voltage_V: number };
    expect(found.r_ohm).toBeCloseTo(r_ohm, 12);
    expect(found.x_ohm).toBeCloseTo(x_ohm, 12);
    expect(found.voltage_V).toBeCloseTo(voltage_V, 9);
    expect(cabinetOf(bench).nominalVoltage_V.panel).toBe(240);
  });

  it("tells what is not used, and how good readings are", () => {
    const notes = (keys: Json) => cabinetOf(file(stiff(keys), load())).notes.join("; ");
    expect(notes({ generator: { rating: "9 kVA", subtransientReactance: 0.15 } })).toContain("is not used");
    const readings = [
      { voltage: "241 V", current: "0 A" },
      { voltage: "233 V", current: "25 A" },
    ];
    expect(notes({ readings })).toContain("impedance from readings");
  });

  it("reports a problem under the key where it was stated", () => {
    const subtransient = { rating: "9 kVA", transientReactance: 0.2, subtransientReactance: 0.3 };
    expect(paths(file(stiff({ generator: subtransient }), load()))).toEqual([
      "parts[0].generator.subtransientReactance",
    ]);
    const readings = [
      { voltage: "241 V", current: "0 A" },
      { voltage: "241 V", current: "0.1 A" },
    ];
    expect(paths(file(stiff({ readings }), load()))).toEqual(["parts[0].readings"]);
  });
});

describe("what is taken from tables and fits", () => {
  it("a cable says the same as its wire in numbers, at the supply's frequency", () => {
    const wire = {
      name: "feeder",
      is: "cable",
      fedBy: "panel",
      conductor: "10 awg copper",
      length: "180 ft",
    };
    for (const frequency_Hz of [50, 60]) {
      const bench = file(supply({ frequency: `${frequency_Hz} Hz` }), wire, load({ fedBy: "feeder" }));
      const spec = { conductor: "10 AWG Cu", length_m: 180 * 0.3048, frequency_Hz };
      expect(part(bench, "feeder")).toMatchObject(made(cableImpedance(spec)));
      expect(cabinetOf(bench).assumptions.map((one) => one.what)).toContain("wire temperature");
    }
  });

  it("a transformer says the same as its plate in numbers", () => {
    const plate = { impedance: "4.5 %", xOverR: 0.5, idleLoss: "40 W", excitingCurrent: "0.9 A" };
    const spec = {
      is: "autotransformer" as const,
      windings_V: [120, 120] as const,
      rating_VA: 3000,
      impedance_percent: 4.5,
      xOverR: 0.5,
      idleLoss_W: 40,
      excitingCurrent_A: 0.9,
    };
    const { r_ohm, x_ohm, excitation } = made(transformerFrom(spec));
    expect(part(file(supply(), midpoint(plate), load()), "midpoint")).toMatchObject({
      r_ohm,
      x_ohm,
      excitation,
    });
  });

  it("a transformer by tests says the same as the tests in numbers", () => {
    const test = { voltage: "5.4 V", current: "25 A", power: "120 W", side: "first" };
    const spec = {
      is: "autotransformer" as const,
      windings_V: [120, 120] as const,
      rating_VA: 3000,
      shortCircuit: { voltage_V: 5.4, current_A: 25, power_W: 120, side: "first" as const },
    };
    const { r_ohm, x_ohm } = made(transformerFrom(spec));
    const bench = file(supply(), midpoint({ impedance: undefined, shortCircuit: test }), load());
    expect(part(bench, "midpoint")).toMatchObject({ r_ohm, x_ohm });
  });

  const points = [
    ["42 A", "600 s"],
    ["60 A", "25 s"],
    ["120 A", "4 s"],
    ["300 A", "0.1 s"],
  ];
  const numbers = [
    [42, 600],
    [60, 25],
    [120, 4],
    [300, 0.1],
  ] as const;

  it.each([
    [
      "points",
      { curve: { points, melt: "minimum" } },
      { curve: { points: numbers, melt: "minimum" as const } },
    ],
    [
      "text in columns, in warm air",
      { curve: { csv: "current (A);time (s)\n42;600\n60;25\n120;4\n300;0.1" }, ambient: "50 degC" },
      { curve: { csv: "current (A);time (s)\n42;600\n60;25\n120;4\n300;0.1" }, ambient_C: 50 },
    ],
    ["class", { curve: "time-delay plug" }, { curve: "time-delay plug" }],
  ])("a fuse by its %s says the same as the same in numbers", (_, keys, spec) => {
    const fuse = { name: "fuse", is: "fuse", fedBy: "panel", rating: "30 A", poles: 2, ...keys };
    const { melt, clearing } = made(meltOf({ rating_A: 30, ...spec }));
    expect(part(file(supply(), fuse, load({ fedBy: "fuse" })), "fuse")).toEqual({
      is: "fuse",
      name: "fuse",
      fedBy: "panel",
      leg: "first",
      r_ohm: 0,
      x_ohm: 0,
      poles: 2,
      rating_A: 30,
      melt,
      clearing,
    });
  });

  it("a fuse without a curve never melts, and says so", () => {
    const bench = file(supply(), { name: "fuse", is: "fuse", fedBy: "panel", rating: "30 A" }, load());
    expect(part(bench, "fuse")).toMatchObject({ poles: 1, melt: null, clearing: null });
    expect(cabinetOf(bench).notes).toEqual(["fuse: without a curve it never melts"]);
  });

  it("a fuse whose curve no fuse has is refused with the place of the point", () => {
    const curve = {
      points: [
        ["30 A", "600 s"],
        ["50 A", "2500 s"],
      ],
      melt: "minimum",
    };
    const fuse = { name: "fuse", is: "fuse", fedBy: "panel", rating: "30 A", curve };
    expect(paths(file(supply(), fuse))).toEqual(["parts[1].curve.points[1]"]);
  });

  const plate = {
    power: "1.1 kW",
    voltage: "115 V",
    fullLoadCurrent: "18 A",
    speed: "1725 rpm",
    codeLetter: "K",
    type: "capacitor-start",
  };
  const numeric = {
    power_W: 1100,
    voltage_V: 115,
    frequency_Hz: 60,
    fullLoadCurrent_A: 18,
    speed_rpm: 1725,
    codeLetter: "K",
    type: "capacitor-start" as const,
  };

  it("a motor by its plate says the same as the plate in numbers", () => {
    const bench = file(supply({ voltage: "120 V" }), motor({ circuit: undefined, nameplate: plate }));
    const { machine, inertia_kgm2, rated } = made(motorFromNameplate(numeric));
    const found = part(bench, "motor");
    if (found.is !== "motor") throw new Error(found.is);
    expect(found.machine).toEqual(machine);
    expect(found.inertia_kgm2).toBe(inertia_kgm2);
    expect(found.fullLoad_A).toBe(rated.current_A);
  });

  it("a motor made for 60 Hz keeps its circuit for 60 Hz on 50 Hz, and a note says so", () => {
    const nameplate = { ...plate, frequency: "60 Hz" };
    const bench = file(
      supply({ voltage: "120 V", frequency: "50 Hz" }),
      motor({ circuit: undefined, nameplate }),
    );
    const found = part(bench, "motor");
    expect(found).toMatchObject({ machine: made(motorFromNameplate(numeric)).machine });
    expect(cabinetOf(bench).notes.join()).toContain("made for 60 Hz, fed with 50 Hz");
  });

  it.each([
    ["compressor", { is: "compressor", startsAgainst: "trapped head", coupling: "belt" }],
    ["fan", { is: "fan" }],
    ["pump", { is: "pump", staticHead: 0.4, inertia: "0.002 kg m2" }],
  ])("a %s asks a torque of a motor known by its circuit alone, and names what it took", (_, drives) => {
    const bench = file(supply({ voltage: "110 V" }), motor({ circuit: circuit(), drives }));
    const found = part(bench, "motor");
    if (found.is !== "motor") throw new Error(found.is);
    expect(found.drives.atFullSpeed_Nm).toBeGreaterThan(0);
    expect(found.inertia_kgm2).toBeGreaterThan(0.0146);
    expect(cabinetOf(bench).assumptions.map((one) => one.what)).toContain("full-load torque");
  });

  it("a plate that no motor has is refused under the plate", () => {
    const wild = { ...plate, codeLetter: undefined, lockedRotorCurrent: "19 A" };
    const found = issuesOf(file(supply(), motor({ circuit: undefined, nameplate: wild })));
    expect(found.length).toBeGreaterThan(0);
    for (const issue of found) expect(issue.path).toMatch(/^parts\[1\]\.nameplate/);
  });
});
