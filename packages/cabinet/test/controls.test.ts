import { readFileSync } from "node:fs";
import { type Issue, issueText, readCabinet } from "@startgap/cabinet";
import type { ControlParameters, MotorParameters, PartParameters } from "@startgap/circuit";
import { describe, expect, it } from "vitest";
import { cabinetOf, circuit, file, type Json, load, motor, supply } from "./support/files.ts";

const GALLON_M3 = 3.785411784e-3;
const CFM = 0.3048 ** 3 / 60;
const PSI = 6894.757293168361;

const tank = (more: Json = {}): Json => ({ name: "tank", is: "receiver", volume: "60 gal", ...more });
const pressureSwitch = (more: Json = {}): Json => ({
  name: "own switch",
  is: "pressure switch",
  receiver: "tank",
  cutIn: "95 psi",
  cutOut: "125 psi",
  ...more,
});
const contactor = (more: Json = {}): Json => ({
  name: "contactor",
  is: "contactor",
  fedBy: "panel",
  coil: "240 V",
  coilFedBy: "panel",
  ...more,
});
const pump = (drives: Json = {}, more: Json = {}): Json =>
  motor({
    drives: { is: "compressor", inertia: "0.01 kg m2", delivers: "5 cfm", into: "tank", ...drives },
    ...more,
  });

const controlOf = (value: unknown, name: string): ControlParameters => {
  const found = cabinetOf(value).circuit.controls?.find((one) => one.name === name);
  if (found === undefined) throw new Error(`no ${name}`);
  return found;
};
const partOf = (value: unknown, name: string): PartParameters => {
  const found = cabinetOf(value).circuit.parts.find((one) => one.name === name);
  if (found === undefined) throw new Error(`no ${name}`);
  return found;
};
const pumpOf = (...parts: Json[]): MotorParameters =>
  partOf(file(supply(), ...parts), "motor") as MotorParameters;

function issuesOf(...parts: Json[]): readonly Issue[] {
  const read = readCabinet(file(supply(), ...parts));
  return "issues" in read ? read.issues : [];
}
const placesOf = (...parts: Json[]): string[] => issuesOf(...parts).map(({ path }) => path);

describe("receiver", () => {
  it("reads volume, demand, pressure and relief in SI", () => {
    const value = file(supply(), tank({ demand: "3 cfm", pressure: "80 psi", relief: "10 bar" }));
    const found = controlOf(value, "tank");
    if (found.is !== "receiver") throw new Error(found.is);
    expect(found.volume_m3).toBeCloseTo(60 * GALLON_M3, 12);
    expect(found.demand).toEqual([{ from_s: 0, flow_m3ps: 3 * CFM }]);
    expect(found.pressure_Pa).toBeCloseTo(80 * PSI, 6);
    expect(found.relief_Pa).toBe(1e6);
  });

  it("begins at the lowest cut-in of its switches, empty without any", () => {
    const other = pressureSwitch({ name: "other", cutIn: "90 psi" });
    const found = controlOf(file(supply(), tank(), pressureSwitch(), other), "tank");
    expect(found.is === "receiver" ? found.pressure_Pa / PSI : 0).toBeCloseTo(90, 9);
    expect(controlOf(file(supply(), tank()), "tank")).toMatchObject({ pressure_Pa: 0 });
  });

  it("reaches the last demand of the day over midnight", () => {
    const demand = [
      ["7 h", "6 cfm"],
      ["18 h", "1 cfm"],
    ];
    const found = controlOf(file(supply(), tank({ demand })), "tank");
    if (found.is !== "receiver") throw new Error(found.is);
    expect(found.demand.map(({ from_s, flow_m3ps }) => [from_s / 3600, flow_m3ps])).toEqual([
      [0, CFM],
      [7, 6 * CFM],
      [18, CFM],
    ]);
  });

  it("is no part of the tree of power, and has no voltage", () => {
    const { circuit: of, nominalVoltage_V } = cabinetOf(file(tank(), supply(), load()));
    expect(of.parts.map(({ name }) => name)).toEqual(["panel", "lamps"]);
    expect(Object.keys(nominalVoltage_V)).toEqual(["panel", "lamps"]);
  });
});

describe("what closes what", () => {
  const devices = [tank(), pressureSwitch(), { name: "master", is: "switch" }];
  const pathOf = (closedBy: unknown): unknown => {
    const found = partOf(file(supply(), ...devices, contactor({ closedBy })), "contactor");
    return found.is === "contactor" ? found.closedBy : null;
  };

  it.each([
    ["master", "master"],
    [["master", "own switch"], { all: ["master", "own switch"] }],
    [{ any: ["master", "own switch"] }, { any: ["master", "own switch"] }],
    [{ not: "master" }, { not: "master" }],
    [
      ["master", { any: ["own switch", "contactor"] }],
      { all: ["master", { any: ["own switch", "contactor"] }] },
    ],
  ])("%j", (written, read) => {
    expect(pathOf(written)).toEqual(read);
  });

  it("also works a contactor without a coil", () => {
    const bare = { name: "contactor", is: "contactor", fedBy: "panel", closedBy: "own switch" };
    expect(partOf(file(supply(), ...devices, bare), "contactor")).toMatchObject({
      coil: null,
      closedBy: "own switch",
    });
  });

  it.each([
    ["an unknown name, with the nearest", ["mastr"], "parts[4].closedBy[0]"],
    ["a part without a contact", { any: ["tank", "master"] }, "parts[4].closedBy.any[0]"],
    ["nothing at all", [], "parts[4].closedBy"],
    ["two ways at once", { any: ["master"], all: ["master"] }, "parts[4].closedBy.any"],
    ["a number", 3, "parts[4].closedBy"],
    ["a list in a list", [["master"]], "parts[4].closedBy[0]"],
  ])("refuses %s", (_, closedBy, place) => {
    expect(placesOf(...devices, contactor({ closedBy }))).toContain(place);
  });

  it("says what the name belongs to, and what was meant", () => {
    const [wrong] = issuesOf(...devices, contactor({ closedBy: "tank" }));
    expect(issueText(wrong!)).toContain('"tank", which is a receiver');
    expect(issuesOf(...devices, contactor({ closedBy: "mastr" }))[0]?.nearest).toBe("master");
  });
});

describe("coil burden", () => {
  it("is nothing where the file says nothing, and the usual ratio where it says half", () => {
    const burdenOf = (more: Json) => {
      const found = partOf(file(supply(), contactor(more)), "contactor");
      return found.is === "contactor" ? found.coil?.burden : null;
    };
    expect(burdenOf({})).toBeUndefined();
    expect(burdenOf({ coilSealed: "10 VA" })).toMatchObject({ inrush_VA: 56, sealed_VA: 10 });
    expect(burdenOf({ coilInrush: "56 VA" })?.sealed_VA).toBeCloseTo(10, 12);
  });

  it("needs a coil", () => {
    const bare = { name: "c", is: "contactor", fedBy: "panel", coilInrush: "40 VA" };
    expect(placesOf(bare)).toContain("parts[1].coil");
  });
});

describe("compressor and its unloader", () => {
  it("delivers at its full load speed into its receiver", () => {
    const { compressor } = pumpOf(tank(), pressureSwitch(), pump());
    expect(compressor?.delivers?.receiver).toBe("tank");
    expect(compressor?.delivers?.flow_m3ps).toBeCloseTo(5 * CFM, 12);
    expect(compressor?.delivers?.atSpeed_radps).toBeGreaterThan(0.9 * 60 * Math.PI);
  });

  it("asks seven and a half times as much at rest against full head as when it is empty (common practice)", () => {
    const { compressor, drives } = pumpOf(tank(), pump());
    expect((compressor?.loaded.atRest_Nm ?? 0) / drives.atRest_Nm).toBeCloseTo(7.5, 9);
    expect((compressor?.coldOil?.atRest_Nm ?? 0) / drives.atRest_Nm).toBeCloseTo(3, 9);
  });

  it("has its unloader on the only switch of its receiver when silent, on its own of several, else none", () => {
    const second = pump({}, { name: "second" });
    const others = [pressureSwitch({ name: "s1" }), pressureSwitch({ name: "s2" })];
    const unloaderOf = (...parts: Json[]) => pumpOf(...parts).compressor?.unloader;
    expect(unloaderOf(tank(), pressureSwitch(), pump())).toEqual({ switch: "own switch" });
    expect(unloaderOf(tank(), pressureSwitch(), pump(), second)).toEqual({ switch: "own switch" });
    expect(unloaderOf(tank(), ...others, second, pump())).toEqual({ switch: "s2" });
    expect(unloaderOf(tank(), ...others, pump())).toBe("none");
    expect(unloaderOf(tank(), pressureSwitch(), pump({ unloader: "centrifugal" }))).toBe("centrifugal");
    expect(unloaderOf(tank(), pressureSwitch(), pump({ unloader: "none" }))).toBe("none");
  });

  it("says what it took without being told", () => {
    const { assumptions } = cabinetOf(file(supply(), tank(), pressureSwitch(), pump()));
    const told = assumptions.filter(({ part }) => part === "motor").map(({ what }) => what);
    expect(told).toEqual(expect.arrayContaining(["unloader", "time in which the head fills"]));
  });

  it("takes a torque outright with or without a head", () => {
    const outright = { is: "torque", atRest: "1 N m", atFullSpeed: "2 N m", inertia: "0.01 kg m2" };
    expect(pumpOf(motor({ drives: outright })).compressor).toBeUndefined();
    const loaded = { atRest: "6 N m", atFullSpeed: "4 N m" };
    expect(pumpOf(motor({ drives: { ...outright, loaded } })).compressor?.loaded).toEqual({
      atRest_Nm: 6,
      atFullSpeed_Nm: 4,
      shape: "square",
    });
  });

  it.each([
    ["a receiver that is none", [pump({ into: "lamps" }), load()], "parts[1].drives.into"],
    ["air without a receiver", [pump({ into: undefined })], "parts[1].drives.into"],
    ["an unloader on nothing", [tank(), pump({ unloader: "spring" })], "parts[2].drives.unloader"],
    ["a fan that pumps", [motor({ drives: { is: "fan", into: "tank" } }), tank()], "parts[1].drives.into"],
    ["a cut-out below the cut-in", [tank(), pressureSwitch({ cutOut: "90 psi" })], "parts[2].cutOut"],
    ["a switch on no receiver", [pressureSwitch({ receiver: "panel" })], "parts[1].receiver"],
    [
      "a day that runs backwards",
      [
        tank({
          demand: [
            ["7 h", "1 cfm"],
            ["6 h", "2 cfm"],
          ],
        }),
      ],
      "parts[1].demand[1][0]",
    ],
    ["a tank that is fed", [tank({ fedBy: "panel" })], "parts[1].fedBy"],
    ["a lamp fed by a tank", [tank(), load({ fedBy: "tank" })], "parts[2].fedBy"],
    [
      "a timer that watches a lamp",
      [load(), { name: "t", is: "lock-out timer", watches: "lamps", lockOut: "60 s" }],
      "parts[2].watches",
    ],
  ] as const)("refuses %s", (_, parts, place) => {
    expect(placesOf(...(parts as readonly Json[]))).toContain(place);
  });

  it("warns of a relief valve that lifts before the switch opens", () => {
    const { notes } = cabinetOf(file(supply(), tank({ relief: "120 psi" }), pressureSwitch()));
    expect(notes).toContain("tank: its relief valve lifts before own switch opens");
  });
});

describe("relays and timers", () => {
  it("a delay relay waits for another motor by its current", () => {
    const relay = { name: "relay", is: "delay relay", fedBy: "panel", delay: "1 s" };
    const waits = { ...relay, waitsFor: "motor", below: "30 A" };
    expect(partOf(file(supply(), motor(), waits), "relay")).toMatchObject({
      waitsFor: { part: "motor", below_A: 30 },
    });
    expect(placesOf(motor(), { ...relay, waitsFor: "motor" })).toContain("parts[2].below");
    expect(placesOf(motor(), { ...waits, waitsFor: "panel" })).toContain("parts[2].waitsFor");
  });

  it("a lock-out timer reads its times", () => {
    const timer = { name: "t", is: "lock-out timer", watches: "panel", lockOut: "3 min", below: "60 %" };
    expect(controlOf(file(supply(), timer), "t")).toMatchObject({ lockOut_s: 180, below: 0.6 });
  });
});

describe("the example with its own air", () => {
  it("reads, and says of nothing that it must be stated", () => {
    const text = readFileSync(new URL("../examples/shop-air.cabinet.json", import.meta.url), "utf8");
    const { circuit: of, notes } = cabinetOf(JSON.parse(text));
    expect(of.controls?.map(({ is }) => is)).toEqual([
      "receiver",
      "receiver",
      "pressure switch",
      "pressure switch",
      "switch",
    ]);
    expect(notes).toEqual([]);
    expect(circuit()).toBeDefined();
  });
});
