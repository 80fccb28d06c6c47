import { parseCabinet } from "@startgap/cabinet";
import { check, type Finding, isFailure, type SourceResult } from "@startgap/study";
import { describe, expect, it } from "vitest";
import { recovery_s } from "../src/judge/source.ts";
import type { Recording } from "../src/recording.ts";

const pump = (name: string, fedBy: string) => ({
  name,
  is: "motor",
  fedBy,
  nameplate: {
    power: "1 hp",
    voltage: "115 V",
    fullLoadCurrent: "13 A",
    speed: "1725 rpm",
    codeLetter: "J",
    type: "capacitor-start",
  },
  drives: { is: "torque", atRest: "0.8 N m", atFullSpeed: "3.4 N m", inertia: "0.012 kg m2" },
});

/** Two pumps, the second behind a relay, on whatever feeds them. */
function checked(source: object, delay = "4 s") {
  const text = JSON.stringify({
    startgap: 1,
    title: "two pumps",
    parts: [
      { name: "source", is: "supply", voltage: "120 V", frequency: "60 Hz", ...source },
      pump("first", "source"),
      { name: "relay", is: "delay relay", fedBy: "source", delay },
      pump("second", "relay"),
      { name: "lamps", is: "load", fedBy: "source", power: "200 W" },
    ],
  });
  const read = parseCabinet(text);
  if ("issues" in read) throw new Error(JSON.stringify(read.issues));
  const found = check(read.cabinet, { withMap: false });
  if (isFailure(found)) throw new Error(found.failed);
  return found;
}

const told = (found: ReturnType<typeof checked>, finding: string, name: string): Finding => {
  const one = found.report.findings.find((f) => f.finding === finding && f.case === name);
  if (one === undefined) throw new Error(`no finding "${finding}" of ${name}`);
  return one;
};
const sourceOf = (found: ReturnType<typeof checked>, name: string): SourceResult => {
  const one = found.report.cases.find((c) => c.case === name)?.source;
  if (one === undefined) throw new Error("no source");
  return one;
};

describe("a generator", () => {
  const found = checked({
    generator: { rating: "5 kVA", transientReactance: 0.25, regulatorRecovery: "1.5 s" },
  });

  it("dips too far when both start together, and passes when one waits", () => {
    expect(told(found, "generator dip", "together")).toMatchObject({
      outcome: "fail",
      part: "source",
      unit: "%",
    });
    expect(told(found, "generator dip", "staggered").outcome).not.toBe("fail");
    for (const name of ["one", "together", "staggered"]) {
      const { value } = told(found, "generator dip", name);
      const { lowestVoltage_V } = sourceOf(found, name);
      expect(value).toBeCloseTo(100 * (1 - lowestVoltage_V / 120), 9);
    }
  });

  it("is back within 5 % in less than the recovery time that was stated, and its story tells the voltage", () => {
    const { value, outcome } = told(found, "generator recovery", "staggered");
    expect(outcome).toBe("pass");
    expect(value).toBeGreaterThan(0);
    expect(value).toBeLessThan(1.5);
    const column = found.stories[2].traces.columns.find(
      (c) => c.quantity === "voltage" && c.part === "source",
    );
    expect(Math.min(...(column?.values ?? []))).toBe(sourceOf(found, "staggered").lowestVoltage_V);
  });

  it("that cannot hold its load does not come back", () => {
    const weak = checked({ generator: { rating: "1.2 kVA", fieldCeiling: 1 } });
    expect(told(weak, "generator recovery", "together")).toMatchObject({ outcome: "fail", value: null });
    expect(sourceOf(weak, "together").atLimit_s).toBeGreaterThan(10);
    expect(told(weak, "generator dip", "together").says).toContain("its field at its ceiling for");
  });
});

describe("an inverter", () => {
  it("passes below its limit, takes note at it, and fails when it shuts down", () => {
    const strong = checked({ inverter: { continuous: "20 kVA" } });
    expect(told(strong, "inverter holds", "together")).toMatchObject({ outcome: "pass" });
    expect(sourceOf(strong, "together").lowestVoltage_V).toBeCloseTo(120, 9);
    const fair = checked({ inverter: { continuous: "7 kVA", surgeFactor: 1.5 } });
    const note = told(fair, "inverter holds", "together");
    expect(note).toMatchObject({ outcome: "caution", value: expect.closeTo(100, 6) });
    expect(note.says).toContain("at its limit of 88 A");
    const small = checked({
      inverter: { continuous: "2.4 kVA", surgeFactor: 1.5, surge: "1 s", stops: "500 ms" },
    });
    expect(told(small, "inverter holds", "together").outcome).toBe("fail");
    const { shutDown_s, atLimit_s } = sourceOf(small, "together");
    expect(shutDown_s).toBeCloseTo(1.5, 6);
    expect(atLimit_s).toBeCloseTo(1.5, 6);
  });
});

it("nothing is asked of a supply that is neither", () => {
  const found = checked({ faultCurrent: "900 A" });
  expect(found.report.findings.filter((f) => /generator|inverter/.test(f.finding))).toEqual([]);
  expect(found.report.cases.every((c) => !("source" in c))).toBe(true);
});

describe("recovery time", () => {
  const rows = (...values: readonly (readonly [t: number, v: number])[]): Recording =>
    ({ rows: values.length, at: (row: number, channel: number) => values[row][channel] }) as Recording;

  it("is the longest time below, between straight lines, and null when it ends below (closed form)", () => {
    expect(recovery_s(rows([0, 10], [1, 10]), 1, 9)).toBe(0);
    expect(recovery_s(rows([0, 10], [0, 8], [2, 10]), 1, 9)).toBe(1);
    expect(recovery_s(rows([0, 8], [2, 10], [3, 8], [3.5, 10], [4, 10]), 1, 9)).toBe(1);
    expect(recovery_s(rows([0, 10], [1, 8], [2, 8]), 1, 9)).toBeNull();
  });
});
