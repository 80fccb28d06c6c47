import { type Circuit, type MotorParameters, plantOf } from "@startgap/circuit";
import { run } from "@startgap/ode";
import { describe, expect, it } from "vitest";
import { check } from "../../src/check.ts";
import { isFailure } from "../../src/failure.ts";
import type { CaseReport } from "../../src/index.ts";
import {
  cable,
  circuit,
  coil,
  contactor,
  fuse,
  load,
  motor,
  pair,
  relay,
  slowMelt,
  supply,
} from "../build.ts";
import { cabinetOf } from "../cabinet.ts";
import { compressor, heated, oneTerm, pressureSwitch, receiver, withControls } from "./build.ts";
import { finding, motorOf, tell } from "./told.ts";

/** The plain check of a circuit as it stands. */
function checked(of: Circuit, name: CaseReport["case"]): CaseReport {
  const result = check(cabinetOf(of), { tolerance: 1e-8, withMap: false });
  if (isFailure(result)) throw new Error(result.failed);
  const found = result.report.cases.find((one) => one.case === name);
  if (found === undefined) throw new Error(name);
  return found;
}

const near = (got: number | null, want: number | null, within: number): void => {
  expect(got).not.toBeNull();
  expect(Math.abs((got ?? 0) / (want ?? 0) - 1), `${got} against ${want}`).toBeLessThan(within);
};

/** The pair with what drives each motor replaced. */
const driven = (of: Circuit, change: (p: MotorParameters) => Partial<MotorParameters>): Circuit => ({
  ...of,
  parts: of.parts.map((p) => (p.is === "motor" ? { ...p, ...change(p) } : p)),
});

const withCompressors = (unloaders: readonly string[] = []): Circuit =>
  driven(pair(), ({ name }) => {
    const unloader = unloaders[name === "pump 1" ? 0 : 1];
    // A head that does not fill within the story leaves each motor what it started against.
    const slow = { fills_s: 1000 };
    return {
      compressor: compressor(unloader === undefined ? slow : { ...slow, unloader: { switch: unloader } }),
    };
  });

const sameMotors = (told: ReturnType<typeof tell>, want: CaseReport, within = 1e-5): void => {
  for (const other of want.motors) {
    const one = motorOf(told, other.part);
    for (const field of ["runUp_s", "lowestVoltage_V", "peakCurrent_A", "finalSpeed_rpm"] as const)
      near(one[field], other[field], within);
  }
};

describe("first start", () => {
  it("is the check of the same cabinet with the oil's torque written in (invariant)", () => {
    const { coldOil } = compressor();
    if (coldOil === null) throw new Error("no cold oil");
    const told = tell(withCompressors(), "first start");
    sameMotors(
      told,
      checked(
        driven(pair(), () => ({ drives: coldOil })),
        "staggered",
      ),
    );
    expect(told.about).toContain("pump 1, pump 2");
  });

  it("is not told of what nothing is known of", () => {
    expect(tell(pair(), "first start").skipped).toMatch(/nothing is known of its cold oil/);
  });
});

describe("trapped head", () => {
  const tanks = [
    receiver("tank 1"),
    receiver("tank 2"),
    pressureSwitch("switch 1", "tank 1", 120),
    pressureSwitch("switch 2", "tank 2", 125),
  ];

  it("is full behind the switch that has not opened, and empty behind the one that has (invariant)", () => {
    const told = tell(withControls(withCompressors(["switch 1", "switch 2"]), ...tanks), "trapped head");
    const { loaded } = compressor();
    const other = driven(pair(), ({ name, drives }) => ({ drives: name === "pump 2" ? loaded : drives }));
    sameMotors(told, checked(other, "staggered"));
    expect(told.about).toBe("A restart after switch 1 has opened: no unloader has emptied pump 2.");
    const bare = motorOf(told, "pump 1").runUp_s ?? 0;
    expect(motorOf(told, "pump 2").runUp_s ?? 0).toBeGreaterThan(1.2 * bare);
  });

  it("is not told where that switch empties both", () => {
    const told = tell(withControls(withCompressors(["switch 1", "switch 1"]), ...tanks), "trapped head");
    expect(told.skipped).toBe("Whatever stops the compressors empties their heads: switch 1.");
  });
});

describe("power return", () => {
  it("is a start against full heads, on fuses still warm (invariant)", () => {
    const told = tell(
      driven(pair(), () => ({ compressor: compressor() })),
      "power return",
    );
    const { loaded } = compressor();
    sameMotors(
      told,
      checked(
        driven(pair(), () => ({ drives: loaded })),
        "staggered",
      ),
      1e-4,
    );
    expect(finding(told, "comes back", "panel")).toMatchObject({ outcome: "pass", change: null });
    expect(told.findings.find((one) => one.finding === "comes back")?.says).toBe(
      "Without power for 5 s: contactor lets go; relay loses its count; the restart is staggered, pump 1 and pump 2 against full head.",
    );
  });

  it("counts its times from the voltage's return: contacts after their pull-in time (closed form)", () => {
    const told = tell(pair(), "power return");
    expect(motorOf(told, "pump 1").closed_s).toBeCloseTo(0.02, 9);
    expect(motorOf(told, "pump 2").closed_s).toBeCloseTo(4.02, 9);
    expect(told.report?.duration_s).toBeCloseTo(12, 9);
  });
});

describe("a dip", () => {
  it("takes its own depth and length, and says how a common restart is cured", () => {
    const told = tell(pair(), "dip", { dip: { left: 0.2, length_s: 0.05 } });
    const back = finding(told, "comes back", "panel");
    expect(back).toMatchObject({ outcome: "caution", gravity: "stops work", value: 0.05 });
    expect(back.change).toContain("loses its count within 20 ms without voltage");
    expect(told.about).toBe("Everything runs, and the supply falls to 20 % of nominal for 0.05 s.");
  });
});

describe("a shallow dip", () => {
  it("that nothing lets go in is followed by nothing", () => {
    const told = tell(pair(), "dip", { dip: { left: 0.9, length_s: 0.2 } });
    expect(finding(told, "comes back", "panel").says).toBe("A dip to 90 % for 200 ms: every motor runs on.");
    expect(told.events).toEqual([]);
    expect(told.report?.contactors[0].closesAgain).toBeUndefined();
  });
});

describe("low line", () => {
  it("is 110/120 of every voltage on a stiff supply, to ANSI C84.1 Range B (closed form)", () => {
    const stiff = circuit(supply(120, 0, 0), motor("pump", "panel"), load("lamp", "panel"));
    const told = tell(stiff, "low line");
    near(motorOf(told, "pump").lowestVoltage_V, 110, 1e-9);
    near(finding(told, "receptacle sag", "lamp").value, (100 * 110) / 120, 1e-9);
  });

  it("slows a run-up by the square of the voltage (closed form: without load the torque alone counts)", () => {
    const bare = { drives: { atRest_Nm: 0, atFullSpeed_Nm: 0, shape: "square" } } as const;
    const stiff = circuit(supply(120, 0, 0), motor("pump", "panel", bare));
    const usual = checked(stiff, "one").motors[0].runUp_s ?? 0;
    near(motorOf(tell(stiff, "low line"), "pump").runUp_s, usual * (120 / 110) ** 2, 1e-6);
  });
});

describe("by current", () => {
  it("closes half a second after the first motor has come down to 1.5 times its running current", () => {
    const told = tell(pair(), "by current");
    const plant = plantOf(pair());
    const first = plant.layout.circuit.parts.findIndex(({ name }) => name === "pump 1");
    const script = { delay_s: () => Number.POSITIVE_INFINITY, connects_s: () => 0 };
    const current_A = (t: number): number => {
      const { end } = run(plant, plant.start(script), t, { tolerance: 1e-9 });
      const walk = plant.solve(end.y, end.mode);
      return Math.hypot(walk.ir[first], walk.ii[first]);
    };
    const level = 1.5 * current_A(15);
    // The switch opens on the way, so that the current falls through the level once.
    let [low, high] = [0.05, 3];
    while (high - low > 1e-8) {
      const middle = (low + high) / 2;
      if (current_A(middle) > level) low = middle;
      else high = middle;
    }
    expect(finding(told, "waits for the first", "pump 2").value).toBeCloseTo(high + 0.5, 5);
  });

  it("is not told where nothing holds back, or where the file's own relay does so", () => {
    expect(tell(circuit(supply(), motor("pump", "panel")), "by current").skipped).toMatch(/No delay relay/);
    const own = pair().parts.map((p) =>
      p.is === "delay relay" ? { ...p, waitsFor: { part: "pump 1", below_A: 9 } } : p,
    );
    expect(tell({ ...pair(), parts: own }, "by current").skipped).toBe("The file's relay does so by itself.");
  });
});

describe("tries in a row", () => {
  /** Melts late in the second try: with less than five seconds a try it would take a third. */
  const melt = oneTerm(9.82, 20);
  const stiff = (curve = melt): Circuit =>
    circuit(supply(110, 0, 0), { ...fuse("fuse", "panel", curve), r_ohm: 0 }, motor("pump", "fuse"));
  /** 17.49 A: standstill current of this machine on a stiff 110 V, from tests/independent. */
  const stall_A = 17.49;

  it("opens in the try that the fuse's one heat says (closed form)", () => {
    let x = 0;
    let which = 0;
    for (let k = 1; which === 0; k++) {
      if (heated(melt, stall_A, 5, x) >= 1) which = k;
      x = heated(melt, 0, 10, heated(melt, stall_A, 5, x));
    }
    const told = tell(stiff(), "tries in a row", { tries: 6 });
    expect(which).toBe(2);
    expect(finding(told, "outlasts the tries", "fuse")).toMatchObject({
      outcome: "caution",
      value: which,
      limit: 6,
    });
    expect(finding(told, "outlasts the tries", "fuse").says).toBe(
      `fuse: opens in try ${which}, before a healthy start is made.`,
    );
  });

  it("leaves the healthy start what the fuse has not cooled (closed form for the heat it begins with)", () => {
    const large = oneTerm(16, 20);
    let x = 0;
    for (let k = 0; k < 3; k++) x = heated(large, 0, 10, heated(large, stall_A, 5, x));
    const told = tell(stiff(large), "tries in a row");
    const cold = checked(stiff(large), "one").fuses[0];
    const hot = told.report?.fuses[0];
    // One linear term: the start adds the same heat, on what is left of the rest when it peaks, 15 s on at the latest.
    const least = cold.meltFraction + x * Math.exp(-15 / 20);
    expect(x).toBeGreaterThan(0.2);
    expect(hot?.meltFraction).toBeGreaterThan(least);
    expect(hot?.meltFraction).toBeLessThan(cold.meltFraction + x);
    expect(hot?.currentMargin ?? 9).toBeLessThan(cold.currentMargin ?? 0);
  });

  it("takes 1 to 20 tries", () => {
    expect(tell(stiff(oneTerm(30, 20)), "tries in a row", { tries: 1 }).about).toContain("tried once");
    for (const tries of [0, 21, 1.5, Number.NaN])
      expect(() => tell(stiff(), "tries in a row", { tries })).toThrow(/^invalid tries: /);
  });

  it("needs a fuse with a curve", () => {
    expect(tell(circuit(supply(), motor("pump", "panel")), "tries in a row").skipped).toMatch(/no fuse/);
  });
});

describe("a contactor that chatters", () => {
  it("is a danger of its contacts, counted in the story and told before what merely fails", () => {
    const weak = circuit(
      supply(120, 1.6, 0.3),
      cable("feeder", "panel", 0.05),
      fuse("fuse", "feeder", slowMelt(60)),
      contactor("contactor", "fuse", coil("fuse", { dropOut_V: 84, pullIn_V: 90 })),
      motor("pump 1", "contactor"),
      relay("relay", "contactor", 4),
      motor("pump 2", "relay"),
    );
    const told = tell(weak, "relay failed closed");
    expect(told.findings[0]).toMatchObject({ finding: "contacts weld", gravity: "danger", outcome: "fail" });
    const { dropOuts, closesAgain } = told.report?.contactors[0] ?? { dropOuts: 0 };
    expect(dropOuts).toBeGreaterThan(3);
    expect(Math.abs(dropOuts - (closesAgain?.times ?? 0))).toBeLessThanOrEqual(1);
    expect(told.findings[0].says).toContain(`closes ${closesAgain?.times} times more`);
  });
});
