import { type Circuit, type PartParameters, plantOf } from "@startgap/circuit";
import { run } from "@startgap/ode";
import { describe, expect, it } from "vitest";
import { check } from "../../src/check.ts";
import { isFailure } from "../../src/failure.ts";
import { caseKinds, cases } from "../../src/index.ts";
import {
  autotransformer,
  circuit,
  coil,
  contactor,
  fuse,
  load,
  motor,
  pair,
  quarterHorse,
  relay,
  supply,
} from "../build.ts";
import { cabinetOf } from "../cabinet.ts";
import { compressor, heated, melts_s, oneTerm, pressureSwitch, receiver, withControls } from "./build.ts";
import { finding, motorOf, tell } from "./told.ts";

/** Standstill current of the machine on a stiff 110 V, from an independent solution of its circuit. */
const STALL_A = 17.49;
const stiff = (...parts: PartParameters[]): Circuit => circuit(supply(110, 0, 0), ...parts);
const clearing = (melt: ReturnType<typeof oneTerm>): PartParameters => ({
  ...fuse("fuse", "panel", oneTerm(3, 5)),
  r_ohm: 0,
  clearing: melt,
});

describe("a stalled rotor", () => {
  it("is off when the slow edge of the fuse says so, not the fast one (closed form)", () => {
    const slow = oneTerm(10, 30);
    const told = tell(stiff(clearing(slow), motor("pump", "fuse")), "stalled rotor");
    const off = finding(told, "taken off the line", "pump");
    expect(Math.abs((off.value ?? 0) / melts_s(slow, STALL_A) - 1)).toBeLessThan(1e-3);
    expect(off).toMatchObject({ outcome: "caution", gravity: "danger" });
    expect(off.says).toMatch(/^pump: stands still, and fuse may take 12 s to clear it\.$/);
  });

  it("passes within 5 s, is a caution up to 15 s, and fails beyond (constructed time constants)", () => {
    const outcome = (seconds: number): unknown => {
      const tau_s = seconds / melts_s(oneTerm(10, 1), STALL_A);
      const told = tell(stiff(clearing(oneTerm(10, tau_s)), motor("pump", "fuse")), "stalled rotor");
      return finding(told, "taken off the line", "pump").outcome;
    };
    expect([4.9, 5.1, 14.9, 15.1].map(outcome)).toEqual(["pass", "caution", "caution", "fail"]);
  });

  it("that nothing clears says what it draws, asks for a protector, and trusts one that is there", () => {
    const bare = stiff(motor("pump", "panel"));
    const off = finding(tell(bare, "stalled rotor"), "taken off the line", "pump");
    expect(off.says).toBe("pump: stands still and draws 17 A, and nothing is sure to open within 10 min.");
    expect(off).toMatchObject({ outcome: "fail", value: null });
    expect(off.change).toMatch(/^Give it a protector/);
    const facts = { pump: { is: "motor", builtInProtector: true, overload_A: null } } as never;
    const guarded = finding(tell(bare, "stalled rotor", {}, { facts }), "taken off the line", "pump");
    expect(guarded).toMatchObject({ outcome: "caution" });
    expect(guarded.change).toMatch(/its own protector trips within 15 s/);
  });

  it("is told of every motor, each alone", () => {
    const told = tell(pair(), "stalled rotor");
    expect(told.findings.map(({ part }) => part)).toEqual(["pump 1", "pump 2"]);
    const [one, other] = told.findings.map(({ says }) => says);
    expect(one).toBe(other.replace("pump 2", "pump 1"));
  });
});

describe("a start switch", () => {
  it("stuck open leaves no torque at rest: the motor hums on its main winding (closed form)", () => {
    const told = tell(stiff(motor("pump", "panel")), "start switch stuck open");
    const { says } = finding(told, "taken off the line", "pump");
    // At rest both fields see the same rotor: Z = R1 + jX1 + 2 (jXm/2 in parallel with R2/2 + jX2/2).
    const { main, rotor, magnetising_ohm: xm } = quarterHorse;
    const [r2, x2] = [rotor.r_ohm, rotor.x_ohm + xm];
    const field = { r: (xm * xm * r2) / (r2 * r2 + x2 * x2), x: xm - (xm * xm * x2) / (r2 * r2 + x2 * x2) };
    const drawn = 110 / Math.hypot(main.r_ohm + field.r, main.x_ohm + field.x);
    expect(says).toBe(
      `pump: hums at rest and draws ${Math.round(drawn)} A, and nothing is sure to open within 10 min.`,
    );
  });

  it("stuck closed lets it run on both windings, at more current than with the start winding out", () => {
    const told = tell(stiff(motor("pump", "panel")), "start switch stuck closed");
    expect(finding(told, "taken off the line", "pump").says).toMatch(/runs on both windings and draws \d/);
    const drawn = Number(/draws ([\d.]+) A/.exec(told.findings[0].says)?.[1]);
    const healthy = check(cabinetOf(stiff(motor("pump", "panel"))));
    if (isFailure(healthy)) throw new Error(healthy.failed);
    expect(drawn).toBeGreaterThan(1.5 * healthy.report.cases[0].motors[0].finalCurrent_A);
  });

  it("is not told of motors without one", () => {
    const machine = { ...quarterHorse, startSwitch: null };
    for (const kind of ["start switch stuck open", "start switch stuck closed"] as const)
      expect(tell(stiff(motor("pump", "panel", { machine })), kind).skipped).toBe(
        "No motor has a start switch.",
      );
  });
});

describe("a relay failed closed", () => {
  it("is everything at once: the check's own case (invariant)", () => {
    const told = tell(pair(), "relay failed closed");
    const both = check(cabinetOf(pair()), { tolerance: 1e-8, withMap: false });
    if (isFailure(both)) throw new Error(both.failed);
    const together = both.report.cases.find((one) => one.case === "together");
    for (const other of together?.motors ?? []) {
      const one = motorOf(told, other.part);
      expect(one.runUp_s).toBeCloseTo(other.runUp_s ?? 0, 6);
      expect(one.lowestVoltage_V).toBeCloseTo(other.lowestVoltage_V ?? 0, 5);
    }
    expect(told.about).toBe("Stuck closed is relay: nothing is held back, all motors start at once.");
  });
});

describe("a contactor welded", () => {
  const FLOW_m3ps = 2e-3;
  const ATMOSPHERE_Pa = 101_325;
  const sync = 60 * Math.PI;
  const drives = { atRest_Nm: 0.3, atFullSpeed_Nm: 0.9, shape: "square" } as const;
  const pumping = compressor({
    loaded: drives,
    delivers: { receiver: "tank", flow_m3ps: FLOW_m3ps, atSpeed_radps: sync },
  });
  const tank = receiver("tank", { relief_Pa: 1e6 });
  const called = (more: Partial<Parameters<typeof contactor>[2]>): Circuit =>
    withControls(
      circuit(
        supply(110, 0, 0),
        { ...contactor("contactor", "panel", coil("panel", more ?? {})), closedBy: "gauge" },
        motor("pump", "contactor", { drives, compressor: pumping }),
      ),
      tank,
      pressureSwitch("gauge", "tank"),
    );

  it("runs past the cut-out until the relief valve lifts: t = V dp/(pa Q) (closed form, and its run-up at most)", () => {
    const told = tell(called({}), "contactor welded");
    const lifts = finding(told, "stops at its pressure", "pump");
    const { end } = run(plantOf(called({})), plantOf(called({})).start(), 10);
    const share = end.y[0] / sync;
    expect(share).toBeGreaterThan(0.9);
    expect(share).toBeLessThan(1);
    const exact = (tank.volume_m3 * (1e6 - tank.pressure_Pa)) / (ATMOSPHERE_Pa * FLOW_m3ps * share);
    expect(lifts).toMatchObject({ outcome: "caution", gravity: "danger" });
    expect(lifts.value ?? 0).toBeGreaterThan(exact);
    expect(lifts.value ?? 0).toBeLessThan(exact + 0.5);
    expect(lifts.change).toMatch(/relief valve/);
  });

  it("pumps no more once the unloader on its pressure switch opens, and runs on (closed form for when)", () => {
    const of = called({});
    const parts = of.parts.map((p) =>
      p.is === "motor" && p.compressor
        ? { ...p, compressor: { ...p.compressor, unloader: { switch: "gauge" } } }
        : p,
    );
    const idles = finding(tell({ ...of, parts }, "contactor welded"), "stops at its pressure", "pump");
    const { end } = run(plantOf(of), plantOf(of).start(), 10);
    const flow = FLOW_m3ps * (end.y[0] / sync);
    const exact = (tank.volume_m3 * (125 * 6894.757293168361 - tank.pressure_Pa)) / (ATMOSPHERE_Pa * flow);
    expect(idles).toMatchObject({ outcome: "caution", gravity: "danger" });
    expect(idles.value ?? 0).toBeGreaterThan(exact);
    expect(idles.value ?? 0).toBeLessThan(exact + 0.5);
    expect(idles.says).toMatch(/pumping nothing while its unloader is open\.$/);
  });

  it("fails where the file has no relief valve", () => {
    const of = called({});
    const controls = (of.controls ?? []).map((c) => (c.is === "receiver" ? { ...c, relief_Pa: null } : c));
    const told = tell({ ...of, controls }, "contactor welded");
    expect(finding(told, "stops at its pressure", "pump")).toMatchObject({ outcome: "fail", value: null });
  });

  it("passes where a pressure switch stands in the motor's own line, at its cut-out (closed form)", () => {
    const of = called({});
    const parts = of.parts.flatMap((p): PartParameters[] =>
      p.is === "motor"
        ? [
            {
              is: "contactor",
              name: "gauge contacts",
              fedBy: "contactor",
              leg: "first",
              coil: null,
              closedBy: "gauge",
            },
            { ...p, fedBy: "gauge contacts" },
          ]
        : [p],
    );
    const told = tell({ ...of, parts }, "contactor welded");
    const stops = finding(told, "stops at its pressure", "pump");
    expect(stops).toMatchObject({ outcome: "pass", change: null });
    expect(stops.says).toMatch(/^pump: stopped after \d+ s by gauge contacts\.$/);
    const { end } = run(plantOf({ ...of, parts }), plantOf({ ...of, parts }).start(), 10);
    const cutOut_Pa = 125 * 6894.757293168361;
    const exact =
      (tank.volume_m3 * (cutOut_Pa - tank.pressure_Pa)) / (ATMOSPHERE_Pa * FLOW_m3ps * (end.y[0] / sync));
    expect(stops.value ?? 0).toBeGreaterThan(exact);
    expect(stops.value ?? 0).toBeLessThan(exact + 0.5);
  });

  it("is not told where nothing fills a receiver", () => {
    expect(tell(pair(), "contactor welded").skipped).toMatch(/nothing calls for a stop/);
  });
});

describe("a transformer switched on", () => {
  it("heats the fuse ahead of it by 25 times its rated current for 10 ms, or 12 times for 0.1 s (closed form)", () => {
    for (const melt of [oneTerm(40, 4), oneTerm(40, 0.02)]) {
      const of = circuit(
        supply(240, 0.1, 0.1),
        fuse("fuse", "panel", melt),
        { ...autotransformer("midpoint", "fuse"), rating_VA: 3000 },
        motor("pump", "midpoint"),
      );
      const rated_A = 3000 / 240;
      const want = Math.max(heated(melt, 25 * rated_A, 0.01), heated(melt, 12 * rated_A, 0.1));
      const { value, outcome } = finding(
        tell(of, "transformer switched on"),
        "fuse rides the inrush",
        "fuse",
      );
      expect(value).toBeCloseTo(want, 9);
      expect(outcome).toBe(want < 0.5 ? "pass" : want < 1 ? "caution" : "fail");
    }
  });

  it("is not told without a fuse that has a curve", () => {
    expect(tell(pair(), "transformer switched on").skipped).toMatch(/No fuse with a curve/);
  });
});

describe("all cases", () => {
  it("are told in turn, each about something or skipped for a reason; findings of all come danger first", () => {
    const seen: number[] = [];
    const report = cases(cabinetOf(pair()), { onProgress: (part) => seen.push(part) });
    if ("failed" in report) throw new Error(report.failed);
    expect(report.cases.map((one) => one.case)).toEqual(caseKinds);
    for (const { skipped, about, outcome, findings } of report.cases) {
      expect((skipped === null) === about.length > 0).toBe(true);
      expect(skipped === null).toBe(outcome !== null);
      expect((skipped ?? about).endsWith(".")).toBe(true);
      for (const one of findings) {
        expect(one.says).toMatch(/^.*\.$/);
        expect(one.change === null).toBe(one.outcome === "pass");
      }
    }
    const ranks = report.findings.map(({ outcome, gravity }) =>
      outcome === "pass" ? 3 : ["danger", "stops work", "note"].indexOf(gravity),
    );
    expect(ranks).toEqual([...ranks].sort());
    expect(seen).toHaveLength(caseKinds.length);
  });

  it("are none of a cabinet without a motor, and stop when cancelled", () => {
    const bare = cases(cabinetOf(circuit(supply(), load("lamp", "panel"))));
    if ("failed" in bare) throw new Error(bare.failed);
    for (const { skipped } of bare.cases) expect(skipped).toBe("There is no motor.");
    expect(cases(cabinetOf(pair()), { signal: { aborted: true } })).toHaveProperty("failed");
  });

  it("of relays without a motor behind them hold nothing back", () => {
    const idle = circuit(supply(), relay("relay", "panel", 3), load("lamp", "relay"), motor("pump", "panel"));
    expect(tell(idle, "relay failed closed").skipped).toBe("No delay relay holds a motor back.");
  });
});
