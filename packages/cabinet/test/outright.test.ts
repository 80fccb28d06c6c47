import { describe, expect, it } from "vitest";
import { cabinetOf, circuit, file, load, midpoint, motor, part, supply } from "./support/files.ts";

describe("what is stated outright", () => {
  it("stays as it is: supply", () => {
    const bench = file(supply({ impedance: { r: "0 ohm", x: "0 ohm" } }), load());
    expect(part(bench, "panel")).toEqual({
      is: "supply",
      name: "panel",
      voltage_V: 240,
      frequency_Hz: 60,
      r_ohm: 0,
      x_ohm: 0,
    });
  });

  it("stays as it is: cable, fuse, contactor without a coil", () => {
    const bench = file(
      supply(),
      { name: "feeder", is: "cable", fedBy: "panel", impedance: { r: "380 mohm", x: "0.02 ohm" } },
      { name: "switch", is: "contactor", fedBy: "feeder" },
      load({ fedBy: "switch" }),
    );
    expect(part(bench, "feeder")).toEqual({
      is: "cable",
      name: "feeder",
      fedBy: "panel",
      leg: "first",
      r_ohm: 0.38,
      x_ohm: 0.02,
    });
    expect(part(bench, "switch")).toEqual({
      is: "contactor",
      name: "switch",
      fedBy: "feeder",
      leg: "first",
      coil: null,
    });
    expect(cabinetOf(bench).assumptions).toEqual([]);
  });

  it("adds no idle loss and no exciting current to a transformer", () => {
    const bench = file(
      supply(),
      midpoint(),
      {
        name: "bell",
        is: "transformer",
        fedBy: "midpoint",
        windings: ["120 V", "24 V"],
        impedance: { r: "30 ohm", x: "3 ohm" },
      },
      load({ fedBy: "bell", power: "10 W" }),
    );
    expect(part(bench, "midpoint")).toEqual({
      is: "autotransformer",
      name: "midpoint",
      fedBy: "panel",
      leg: "first",
      r_ohm: 0.2,
      x_ohm: 0.1,
      windings_V: [120, 120],
      rating_VA: 3000,
      excitation: { conductance_S: 0, susceptance_S: 0 },
    });
    expect(part(bench, "bell")).toMatchObject({
      r_ohm: 30,
      x_ohm: 3,
      rating_VA: Number.POSITIVE_INFINITY,
      excitation: { conductance_S: 0, susceptance_S: 0 },
    });
    expect(cabinetOf(bench).assumptions).toEqual([]);
  });

  it("keeps an idle loss that the file states beside ohms (closed form: P/V^2 across both windings)", () => {
    const bench = file(supply(), midpoint({ idleLoss: "40 W", excitingCurrent: "3 %" }), load());
    const found = part(bench, "midpoint");
    if (found.is !== "autotransformer") throw new Error(found.is);
    const Y = (0.03 * 3000) / 240 ** 2;
    const G = 40 / 240 ** 2;
    expect(found.excitation.conductance_S).toBeCloseTo(G, 12);
    expect(found.excitation.susceptance_S).toBeCloseTo(Math.sqrt(Y * Y - G * G), 12);
  });

  it("stays as it is: a motor's circuit, unloaded when it drives nothing", () => {
    expect(part(file(supply({ voltage: "110 V" }), motor()), "motor")).toEqual({
      is: "motor",
      name: "motor",
      fedBy: "panel",
      leg: "first",
      machine: {
        poles: 4,
        frequency_Hz: 60,
        voltage_V: 110,
        main: { r_ohm: 2.02, x_ohm: 2.79 },
        rotor: { r_ohm: 4.12, x_ohm: 2.12 },
        rotorAtStandstill: { r_ohm: 4.12, x_ohm: 2.12 },
        magnetising_ohm: 66.8,
        core_ohm: Number.POSITIVE_INFINITY,
        rotationalLoss_W: 0,
        auxiliary: { r_ohm: 7.14, x_ohm: 3.22, turnsRatio: 1.18 },
        startCapacitor: { r_ohm: 3, x_ohm: 14.5 },
        runCapacitor: null,
        startSwitch: { opens: 0.75, closes: 0.45 },
      },
      inertia_kgm2: 0.0146,
      drives: { atRest_Nm: 0, atFullSpeed_Nm: 0, shape: "square" },
      fullLoad_A: null,
    });
  });

  it("takes a capacitor in microfarads at the supply's frequency (closed form: 1/(2 pi f C))", () => {
    for (const [frequency, f] of [
      ["60 Hz", 60],
      ["50 Hz", 50],
    ] as const) {
      const bench = file(supply({ frequency }), motor({ circuit: circuit({ startCapacitor: "400 uF" }) }));
      const found = part(bench, "motor");
      if (found.is !== "motor") throw new Error(found.is);
      expect(found.machine.startCapacitor?.r_ohm).toBe(0);
      expect(found.machine.startCapacitor?.x_ohm).toBeCloseTo(1 / (2 * Math.PI * f * 400e-6), 10);
      expect(found.machine.frequency_Hz).toBe(f);
    }
  });

  it("takes every other key of a circuit", () => {
    const more = {
      rotorAtStandstill: { r: "5 ohm", x: "1.8 ohm" },
      runCapacitor: { r: "9 ohm", x: "172 ohm" },
      switchCloses: 0.4,
      core: "800 ohm",
      rotationalLoss: "13 W",
    };
    expect(part(file(supply(), motor({ circuit: circuit(more) })), "motor")).toMatchObject({
      machine: {
        rotorAtStandstill: { r_ohm: 5, x_ohm: 1.8 },
        runCapacitor: { r_ohm: 9, x_ohm: 172 },
        startSwitch: { opens: 0.75, closes: 0.4 },
        core_ohm: 800,
        rotationalLoss_W: 13,
      },
    });
  });

  it("takes a motor without an auxiliary winding", () => {
    const bare = circuit();
    for (const key of ["auxiliary", "startCapacitor", "switchOpens"]) delete bare[key];
    expect(part(file(supply(), motor({ circuit: bare })), "motor")).toMatchObject({
      machine: { auxiliary: null, startCapacitor: null, startSwitch: null },
    });
  });

  it("adds the inertia of the load to that of the rotor (closed form)", () => {
    const drives = {
      is: "torque",
      atRest: "4 N m",
      atFullSpeed: "11 N m",
      shape: "linear",
      inertia: "0.03 kg m2",
    };
    const found = part(file(supply(), motor({ drives })), "motor");
    expect(found).toMatchObject({ drives: { atRest_Nm: 4, atFullSpeed_Nm: 11, shape: "linear" } });
    expect((found as { inertia_kgm2: number }).inertia_kgm2).toBeCloseTo(0.0446, 12);
  });

  it("names what it takes for a contactor and a relay when the file is silent", () => {
    const bench = file(
      supply(),
      { name: "contactor", is: "contactor", fedBy: "panel", coil: "240 V", coilFedBy: "panel" },
      { name: "relay", is: "delay relay", fedBy: "contactor", delay: "6 s +- 10 %" },
      load({ fedBy: "relay" }),
    );
    const cabinet = cabinetOf(bench);
    expect(part(bench, "contactor")).toMatchObject({
      coil: {
        rated_V: 240,
        fedBy: "panel",
        leg: "first",
        pullIn_V: 180,
        dropOut_V: 120,
        pullInTime_s: 0.02,
        dropOutTime_s: 0.015,
      },
    });
    expect(part(bench, "relay")).toMatchObject({ delay_s: 6, reset_s: 0.1 });
    expect(cabinet.assumptions.map((one) => `${one.part}: ${one.what} ${one.value}`)).toEqual([
      "contactor: pull-in voltage 180 V",
      "contactor: drop-out voltage 120 V",
      "contactor: pull-in time 20 ms",
      "contactor: drop-out time 15 ms",
      "relay: dead time that resets it 100 ms",
    ]);
    expect(cabinet.relays).toHaveLength(1);
    expect(cabinet.relays[0]!.name).toBe("relay");
    expect(cabinet.relays[0]!.delay_s.low).toBeCloseTo(5.4, 12);
    expect(cabinet.relays[0]!.delay_s.high).toBeCloseTo(6.6, 12);
  });

  it.each([
    ["power", { power: "400 W" }, 400, 0],
    ["power and power factor", { power: "400 W", powerFactor: 0.8 }, 400, 300],
    ["current", { power: undefined, current: "4 A" }, 960, 0],
    ["current and power factor", { power: undefined, current: "5 A", powerFactor: 0.6 }, 720, 960],
    ["impedance", { power: undefined, impedance: { r: "48 ohm", x: "64 ohm" } }, 432, 576],
  ])("takes a load by its %s (closed form)", (_, more, power_W, reactive_var) => {
    const found = part(file(supply(), load(more)), "lamps");
    if (found.is !== "load") throw new Error(found.is);
    expect(found.power_W).toBeCloseTo(power_W, 9);
    expect(found.reactive_var).toBeCloseTo(reactive_var, 9);
    expect(found).toMatchObject({ nominal_V: 240, holds: "impedance" });
  });
});

describe("nominal voltages", () => {
  it("follow ratios and legs outwards (closed form)", () => {
    const bench = file(
      supply(),
      midpoint({ windings: ["120 V", "120 V"] }),
      load({ name: "first", fedBy: "midpoint" }),
      load({ name: "second", fedBy: "midpoint", leg: "second" }),
      load({ name: "both", fedBy: "midpoint", leg: "both" }),
      { name: "switch", is: "contactor", fedBy: "midpoint", leg: "both" },
      load({ name: "behind", fedBy: "switch" }),
      { name: "bell", is: "transformer", fedBy: "midpoint", windings: ["120 V", "24 V"], rating: "40 VA" },
      load({ name: "ringer", fedBy: "bell", power: "5 W" }),
    );
    expect(cabinetOf(bench).nominalVoltage_V).toEqual({
      panel: 240,
      midpoint: 120,
      first: 120,
      second: 120,
      both: 240,
      switch: 240,
      behind: 240,
      bell: 24,
      ringer: 24,
    });
  });

  it("divide by turns where the windings differ (closed form)", () => {
    const bench = file(
      supply(),
      midpoint({ windings: ["180 V", "60 V"] }),
      load({ fedBy: "midpoint", leg: "second" }),
    );
    expect(cabinetOf(bench).nominalVoltage_V).toMatchObject({ midpoint: 180, lamps: 60 });
  });

  it("are looked up in any order of the file", () => {
    const bench = file(
      load({ fedBy: "switch" }),
      {
        name: "switch",
        is: "contactor",
        fedBy: "midpoint",
        coil: "24 V",
        coilFedBy: "bell",
      },
      { name: "bell", is: "transformer", fedBy: "midpoint", windings: ["120 V", "24 V"], rating: "40 VA" },
      midpoint(),
      supply(),
    );
    const cabinet = cabinetOf(bench);
    expect(cabinet.circuit.parts.map((one) => one.name)).toEqual([
      "panel",
      "midpoint",
      "switch",
      "lamps",
      "bell",
    ]);
    expect(cabinet.nominalVoltage_V).toMatchObject({ lamps: 120, bell: 24 });
    expect(cabinet.notes).toEqual([]);
  });
});

describe("notes", () => {
  const notesOf = (...parts: unknown[]) => cabinetOf(file(...parts)).notes.join("\n");

  it("say that a motor is fed a voltage that it was not made for", () => {
    expect(notesOf(supply(), motor())).toContain("motor: made for 110 V, fed with 240 V, 118 % above");
    expect(notesOf(supply({ voltage: "120 V" }), motor())).toBe("");
    expect(notesOf(supply({ voltage: "95 V" }), motor())).toContain("14 % below");
  });

  it("say that a coil gets too little or too much", () => {
    const coil = (volts: string) => ({
      name: "contactor",
      is: "contactor",
      fedBy: "panel",
      coil: volts,
      coilFedBy: "panel",
    });
    expect(notesOf(supply(), coil("240 V"), load())).toBe("");
    expect(notesOf(supply(), coil("120 V"), load())).toContain("outside 85 to 110 %");
    expect(notesOf(supply(), coil("400 V"), load())).toContain("it never closes");
  });

  it("say that a transformer stands on more than its windings are rated for", () => {
    expect(notesOf(supply(), midpoint({ windings: ["100 V", "100 V"] }), load())).toContain("saturate");
    expect(notesOf(supply(), midpoint({ windings: ["240 V", "240 V"] }), load())).toBe("");
  });
});
