import { type Machine, type MotorPoint, steadyState } from "@startgap/circuit";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Derived } from "../src/grade.ts";
import type { Issue } from "../src/issue.ts";
import { codeLetterRange, middleOf, usualCodeLetter } from "../src/motor/codeLetter.ts";
import { tableFullLoadCurrent_A } from "../src/motor/currentTables.ts";
import { motorFromNameplate, type PlateMotor } from "../src/motor/motorFromNameplate.ts";
import { MOTOR_TYPES, type Nameplate } from "../src/motor/nameplate.ts";

const HP_W = 745.7;

const iceShed: Nameplate = {
  type: "capacitor-start",
  voltage_V: 115,
  frequency_Hz: 60,
  power_W: 1.5 * HP_W,
  fullLoadCurrent_A: 18,
  speed_rpm: 1725,
  codeLetter: "K",
};

const isMotor = (found: Derived<PlateMotor> | Issue[]): found is Derived<PlateMotor> => "value" in found;

function motorOf(plate: Nameplate): Derived<PlateMotor> {
  const found = motorFromNameplate(plate, "compressor 1");
  if (!isMotor(found)) throw new Error(JSON.stringify(found));
  return found;
}

function issuesOf(plate: Nameplate): Issue[] {
  const found = motorFromNameplate(plate);
  if (isMotor(found)) throw new Error("expected issues");
  return found;
}

const amperes = ({ line_A: { re, im } }: MotorPoint): number => Math.hypot(re, im);

/** Greatest shaft torque with the switch open, by a plain scan. */
const crestOf = (machine: Machine, V: number): number =>
  Math.max(
    ...Array.from({ length: 150 }, (_, k) => steadyState(machine, V, (k + 1) / 150, false).shaftTorque_Nm),
  );

/** Class values over full load, common practice: locked-rotor torque, breakdown torque. */
const CLASS = {
  "split-phase": [1.5, 2.25],
  "capacitor-start": [2.5, 2.25],
  "capacitor-start-capacitor-run": [2.5, 2.25],
  "permanent-split-capacitor": [0.5, 2.5],
} as const;

interface Rating {
  readonly type: keyof typeof CLASS;
  readonly hp: number;
  readonly poles: number;
  readonly frequency_Hz: number;
  readonly voltage_V: 115 | 230;
}

/** NEC Table 430.248 current, usual MG 1 letter, usual speed: four types, 1/4 to 5 hp, 2 to 8 poles, 50 and 60 Hz. */
const RATINGS: Rating[] = MOTOR_TYPES.flatMap((type) =>
  [
    [60, 115, 2],
    [60, 115, 4],
    [60, 230, 6],
    [60, 230, 8],
    [50, 230, 2],
    [50, 230, 4],
  ].flatMap(([frequency_Hz, voltage_V, poles]) =>
    [1 / 4, 1 / 3, 1 / 2, 3 / 4, 1, 1.5, 2, 3, 5]
      .filter((hp) => type !== "split-phase" || hp < 1)
      .map((hp) => ({ type, hp, poles, frequency_Hz, voltage_V: voltage_V as 115 | 230 })),
  ),
);

const speedOf = ({ poles, frequency_Hz }: Rating): number =>
  Math.round((frequency_Hz === 60 ? 0.9583 : 0.95) * ((120 * frequency_Hz) / poles));

const plateOf = (rating: Rating): Nameplate => ({
  ...rating,
  power_W: rating.hp * HP_W,
  fullLoadCurrent_A: tableFullLoadCurrent_A(rating.hp, rating.voltage_V),
  speed_rpm: speedOf(rating),
  codeLetter: usualCodeLetter(rating.hp),
});

describe("a circuit from class values", () => {
  it(`covers at least 60 ratings (here ${RATINGS.length})`, () => expect(RATINGS.length).toBeGreaterThan(60));

  for (const type of MOTOR_TYPES) {
    it(`${type}: currents and rated torque within 2 %, start and breakdown torque within 10 % (published tables)`, () => {
      for (const rating of RATINGS.filter((r) => r.type === type)) {
        const plate = plateOf(rating);
        const { machine } = motorOf(plate).value;
        const V = rating.voltage_V;
        const torque = plate.power_W! / (speedOf(rating) * (Math.PI / 30));
        const slip = 1 - speedOf(rating) / ((120 * rating.frequency_Hz) / rating.poles);
        const rated = steadyState(machine, V, slip, false);
        const locked = steadyState(machine, V, 1, true);
        const letter_A = (1000 * middleOf(codeLetterRange(plate.codeLetter!)!) * rating.hp) / V;
        const off = (got: number, want: number): number => Math.abs(got / want - 1);
        const says = JSON.stringify(rating);
        expect(machine.poles, says).toBe(rating.poles);
        expect(off(amperes(rated), plate.fullLoadCurrent_A!), says).toBeLessThan(0.02);
        expect(off(rated.shaftTorque_Nm, torque), says).toBeLessThan(0.02);
        expect(off(amperes(locked), letter_A), says).toBeLessThan(0.02);
        expect(off(locked.torque_Nm, CLASS[type][0] * torque), says).toBeLessThan(0.1);
        expect(off(crestOf(machine, V), CLASS[type][1] * torque), says).toBeLessThan(0.1);
        expect(rated.efficiency, says).toBeGreaterThan(0.4);
        expect(rated.efficiency, says).toBeLessThan(0.85);
        expect(rated.powerFactor, says).toBeGreaterThan(0.45);
        expect(rated.powerFactor, says).toBeLessThan(0.98);
        expect(locked.powerFactor, says).toBeGreaterThan(0.5);
      }
    });
  }
});

describe("a plate of figures in full", () => {
  const { value, assumptions } = motorOf(iceShed);

  it("gives the start switch and the kind of winding that the type has", () => {
    expect(value.machine.startSwitch).toEqual({ opens: 0.75, closes: 0.45 });
    expect(value.machine.runCapacitor).toBeNull();
    const permanent = motorOf({ ...iceShed, type: "permanent-split-capacitor", codeLetter: "G" }).value
      .machine;
    expect(permanent.startSwitch).toBeNull();
    expect(permanent.startCapacitor).toBeNull();
    expect(permanent.runCapacitor).not.toBeNull();
    expect(motorOf({ ...iceShed, type: "split-phase" }).value.machine.startCapacitor).toBeNull();
  });

  it("tells every value that it took, with part, range and basis", () => {
    const whats = assumptions.map(({ what }) => what);
    for (const what of [
      "locked-rotor current",
      "locked-rotor torque",
      "breakdown torque",
      "start capacitor",
      "rotor inertia",
    ]) {
      expect(whats).toContain(what);
    }
    expect(assumptions.every(({ part, basis }) => part === "compressor 1" && basis !== "")).toBe(true);
    expect(assumptions.find(({ what }) => what === "locked-rotor current")).toEqual({
      part: "compressor 1",
      what: "locked-rotor current",
      value: "111 A",
      range: "104 to 117 A",
      grade: "table",
      basis: "code letter K, NEMA MG 1 10.37.2, middle of its range",
    });
  });

  it("assumes nothing that the plate states", () => {
    const full = {
      ...iceShed,
      lockedRotorCurrent_A: 110,
      lockedRotorTorque_Nm: 16,
      breakdownTorque_Nm: 14,
      startCapacitor_F: 600e-6,
      powerFactor: 0.71,
      inertia_kgm2: 0.006,
    };
    const motor = motorOf(full);
    expect(motor.value.inertia_kgm2).toBe(0.006);
    expect(motor.value.contradictions).toEqual([]);
    expect(motor.assumptions.map(({ what }) => what)).toEqual([
      "locked-rotor power factor",
      "start capacitor loss",
      "start switch opens, of synchronous speed",
      "start switch recloses, of synchronous speed",
    ]);
    expect(motor.value.checks.every(({ got, wanted, within }) => Math.abs(got / wanted - 1) <= within)).toBe(
      true,
    );
  });

  it("is the same every time, whatever was asked before (invariant)", () => {
    motorOf({ ...iceShed, type: "split-phase", power_W: 200, fullLoadCurrent_A: 5 });
    expect(motorOf(iceShed)).toEqual({ value, assumptions });
  });
});

describe("a plate with gaps", () => {
  it("needs only volts, hertz and amperes, and says what it made of the rest", () => {
    const motor = motorOf({ voltage_V: 115, frequency_Hz: 60, fullLoadCurrent_A: 15 });
    const whats = motor.assumptions.map(({ what }) => what);
    for (const what of ["motor type", "full-load speed", "rated power"]) expect(whats).toContain(what);
    expect(motor.value.rated.power_W / HP_W).toBeGreaterThan(0.8);
    expect(motor.value.rated.power_W / HP_W).toBeLessThan(1.75);
  });

  it("takes the table's current where only the power is known, and says that it runs high", () => {
    const motor = motorOf({ voltage_V: 115, frequency_Hz: 60, power_W: 1.5 * HP_W });
    expect(motor.value.rated.current_A).toBeCloseTo(20, 4);
    expect(motor.assumptions.find(({ what }) => what === "full-load current")?.basis).toContain("430.248");
  });

  it("reads the type off the capacitors", () => {
    const typeOf = (plate: Partial<Nameplate>): string | undefined =>
      motorOf({ ...iceShed, type: null, ...plate }).assumptions.find(({ what }) => what === "motor type")
        ?.value;
    expect(typeOf({ startCapacitor_F: 5e-4 })).toBe("capacitor-start");
    expect(typeOf({ startCapacitor_F: 5e-4, runCapacitor_F: 4e-5 })).toBe("capacitor-start-capacitor-run");
    expect(typeOf({ runCapacitor_F: 1e-4, codeLetter: "G" })).toBe("permanent-split-capacitor");
  });
});

describe("a plate that speaks against itself", () => {
  const said = (plate: Partial<Nameplate>): readonly string[] =>
    motorOf({ ...iceShed, ...plate }).value.contradictions;

  it("5 hp on 120 V and 15 A: more than goes in; believes the amperes", () => {
    const plate = { ...iceShed, voltage_V: 120, power_W: 5 * HP_W, fullLoadCurrent_A: 15, codeLetter: null };
    const { value, assumptions } = motorOf(plate);
    expect(value.contradictions).toHaveLength(1);
    expect(value.contradictions[0]).toMatch(/3730 W \(5 hp\).*1800 VA.*207 %.*Believed the amperes/);
    expect(value.rated.power_W).toBeLessThan(1800);
    expect(assumptions.find(({ what }) => what === "rated power")).toBeDefined();
  });

  it("code letter L with 80 A: believes the amperes and names the letter they belong to", () => {
    expect(said({ lockedRotorCurrent_A: 80, codeLetter: "L" })[0]).toMatch(
      /80 A.*6.13 kVA\/hp.*letter G.*says L/,
    );
    expect(said({ lockedRotorCurrent_A: 80, codeLetter: "g" })).toEqual([]);
  });

  it("a speed that is synchronous: takes the usual slip", () => {
    expect(said({ speed_rpm: 1800 })[0]).toMatch(/1800 rpm.*synchronous.*1725 rpm/);
    expect(motorOf({ ...iceShed, speed_rpm: 1800 }).value.rated.speed_rpm).toBeCloseTo(1725, 9);
  });

  it("power factor and efficiency that do not multiply up: believes the power factor", () => {
    expect(said({ powerFactor: 0.7, efficiency: 0.6 })[0]).toMatch(/efficiency of 77 %, the plate 60 %/);
    expect(said({ powerFactor: 0.5 })[0]).toMatch(/power factor of 0.5 does not go/);
    expect(said({ efficiency: 0.5 })[0]).toMatch(/efficiency of 0.5 does not go/);
    expect(said({ efficiency: 0.75 })).toEqual([]);
  });

  it("the current of the other voltage: asks", () => {
    expect(said({ voltage_V: 230 })[0]).toMatch(/1.8 times the 10 A.*other voltage/);
  });

  it("capacitors that the type has not: believes the capacitors", () => {
    expect(said({ type: "split-phase", startCapacitor_F: 5e-4 })[0]).toMatch(/split-phase.*capacitor-start/);
    expect(said({ runCapacitor_F: 4e-5 })[0]).toMatch(/capacitor-start-capacitor-run/);
  });
});

describe("a plate that cannot be", () => {
  it("lists every bad figure at once, with its place", () => {
    const issues = issuesOf({
      ...iceShed,
      voltage_V: Number.NaN,
      power_W: -3,
      codeLetter: "I",
      type: "capacitor start" as "capacitor-start",
      runCapacitor_F: 1,
    });
    expect(issues.map(({ path }) => path)).toEqual(
      ["voltage", "power", "runCapacitor", "type", "codeLetter"].map((key) => `nameplate.${key}`),
    );
    expect(issues[3].nearest).toBe("capacitor-start");
  });

  it("names the hertz that a speed would suit", () => {
    expect(issuesOf({ ...iceShed, speed_rpm: 1425 })[0].expected).toContain("50 Hz motor");
    expect(issuesOf({ ...iceShed, speed_rpm: 3700 })[0].path).toBe("nameplate.speed");
  });

  it("refuses what no motor has: neither power nor current, a locked rotor below full load, a torque beyond reason", () => {
    expect(issuesOf({ ...iceShed, power_W: null, fullLoadCurrent_A: null })[0].received).toBe("neither");
    expect(issuesOf({ ...iceShed, lockedRotorCurrent_A: 15 })[0].path).toBe("nameplate.lockedRotorCurrent");
    expect(issuesOf({ ...iceShed, codeLetter: "V" })[0].path).toBe("nameplate.codeLetter");
    expect(issuesOf({ ...iceShed, breakdownTorque_Nm: 6 })[0].path).toBe("nameplate.breakdownTorque");
    expect(issuesOf({ ...iceShed, fullLoadCurrent_A: 120 })[0].path).toBe("nameplate.fullLoadCurrent");
  });

  it("refuses figures that no one circuit meets, laid to what the plate states", () => {
    const issues = issuesOf({ ...iceShed, lockedRotorCurrent_A: 30, codeLetter: null });
    expect(issues[0].path).toBe("nameplate.lockedRotorCurrent");
    expect(issues[0].received).toMatch(/at best .* N m/);
    const torque = issuesOf({
      ...iceShed,
      lockedRotorCurrent_A: 60,
      codeLetter: null,
      lockedRotorTorque_Nm: 36,
    });
    expect(torque[0].path).toBe("nameplate.lockedRotorTorque");
  });
});

describe("any plate", () => {
  const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });
  const maybe = <T>(value: fc.Arbitrary<T>) => fc.option(value);
  const anyPlate: fc.Arbitrary<Nameplate> = fc.record({
    voltage_V: between(90, 500),
    frequency_Hz: fc.constantFrom(50, 60),
    power_W: maybe(between(50, 5000)),
    fullLoadCurrent_A: maybe(between(0.5, 60)),
    speed_rpm: maybe(between(600, 3600)),
    type: maybe(fc.constantFrom(...MOTOR_TYPES)),
    lockedRotorCurrent_A: maybe(between(1, 400)),
    codeLetter: maybe(fc.constantFrom("A", "G", "K", "M", "V")),
    startCapacitor_F: maybe(between(2e-5, 1.5e-3)),
    runCapacitor_F: maybe(between(1e-6, 1.5e-4)),
    lockedRotorTorque_Nm: maybe(between(0.2, 60)),
    breakdownTorque_Nm: maybe(between(0.5, 60)),
    powerFactor: maybe(between(0.4, 1)),
    efficiency: maybe(between(0.3, 0.9)),
  });
  const finite = (value: unknown): boolean =>
    typeof value === "number"
      ? Number.isFinite(value)
      : typeof value !== "object" || value === null || Object.values(value).every(finite);

  it("is fitted within the limits or refused with a reason; nothing is thrown and nothing is NaN (invariant)", () => {
    fc.assert(
      fc.property(anyPlate, (plate) => {
        const found = motorFromNameplate(plate);
        if (!isMotor(found)) {
          expect(found.length).toBeGreaterThan(0);
          expect(found.every(({ path, expected, received }) => path && expected && received)).toBe(true);
          return;
        }
        expect(finite(found.value)).toBe(true);
        expect(found.value.checks.every(({ met }) => met)).toBe(true);
      }),
      { numRuns: 250, seed: 7 },
    );
  });
});
