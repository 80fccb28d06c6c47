import { examples } from "@startgap/cabinet";
import { describe, expect, it } from "vitest";
import { type Performance, perform } from "./stage.ts";

const [shed] = examples;
const files = { "shed.json": shed.text };
/** Every use of the command, run once. */
const ran = new Map<string, Promise<Performance>>();
function run(...argv: string[]): Promise<Performance> {
  const key = argv.join(" ");
  const once = ran.get(key) ?? perform(argv, { files });
  ran.set(key, once);
  return once;
}

/** A cabinet of one motor on a stiff supply. */
const alone = examples.find((example) => example.key === "quarter-horse")?.text ?? "";

/** Every number anywhere in a value. */
function numbers(value: unknown): unknown[] {
  if (typeof value === "number") return [value];
  return typeof value === "object" && value !== null ? Object.values(value).flatMap(numbers) : [];
}

const keys = (record: object): string[] => Object.keys(record);

describe("check --json", () => {
  it("prints the published object: every field, in its place", async () => {
    const { out, err, status } = await run("check", "shed.json", "--json");
    expect(err).toBe("");
    const told = JSON.parse(out);
    expect(keys(told).slice(0, 5)).toEqual(["startgap", "title", "cases", "delay", "findings"]);
    expect(told.startgap).toBe("check 1");
    expect(told.cases.map((c: { case: string }) => c.case)).toEqual(["one", "together", "staggered"]);
    const [, , staggered] = told.cases;
    expect(staggered).toMatchObject({ delay_s: 6 });
    const fields = {
      motors:
        "part outcome closed_s switchOpened_s runUp_s peakCurrent_A lowestVoltage_V finalSpeed_rpm finalCurrent_A",
      fuses: "part meltFraction currentMargin peakCurrent_A opened_s",
      points: "part nominal_V lowestVoltage_V below90_s finalVoltage_V",
      contactors: "part dropOuts lowestCoil_V",
    };
    for (const [list, names] of Object.entries(fields)) {
      expect(staggered[list].length, list).toBeGreaterThan(0);
      expect(keys(staggered[list][0])).toEqual(expect.arrayContaining(names.split(" ")));
    }
    expect(keys(told.delay)).toEqual(expect.arrayContaining(["recommended_s", "shortest_s", "reason"]));
    const finding = "finding part case outcome value limit unit basis says".split(" ");
    for (const one of told.findings) expect(keys(one)).toEqual(expect.arrayContaining(finding));
    const counted = told.findings.filter((f: { case: string }) => f.case !== "together");
    const fails = counted.some((f: { outcome: string }) => f.outcome === "fail");
    expect(status).toBe(fails ? 1 : 0);
  });

  it("holds only finite numbers and nulls", async () => {
    for (const argv of [["check"], ["stagger"], ["motor"]]) {
      const { out } = await run(argv[0], "shed.json", "--json");
      expect(out).not.toMatch(/NaN|Infinity|undefined/);
      for (const number of numbers(JSON.parse(out))) expect(number).toSatisfy(Number.isFinite);
    }
  });

  it("gives the same text for the same file", async () => {
    const again = await perform(["check", "shed.json", "--json"], { files });
    expect(again).toEqual(await run("check", "shed.json", "--json"));
  });

  it("follows the delay it is given", async () => {
    const { out } = await run("check", "shed.json", "--json", "--delay", "2500 ms");
    expect(JSON.parse(out).cases[2].delay_s).toBe(2.5);
  });

  it("of one motor has one case and nothing to hold back", async () => {
    const { out } = await perform(["check", "-", "--json"], { stdin: alone });
    const told = JSON.parse(out);
    expect(told.cases.map((c: { case: string }) => c.case)).toEqual(["one"]);
    expect(told.delay).toMatchObject({ recommended_s: null, shortest_s: null });
  });
});

describe("check for a person", () => {
  it("begins with the verdict and the delay, and says the cautions once", async () => {
    const { out } = await run("check", "shed.json");
    expect(out).toMatch(/^(PASS|CAUTION|FAIL) {2,}\S/);
    expect(out.match(/De-energise/g)).toHaveLength(1);
    expect(out.match(/does not isolate/g)).toHaveLength(1);
    const { out: of } = await perform(["check", "-"], { stdin: alone });
    expect(of).not.toContain("does not isolate");
  });

  it("keeps to the width of the screen, wide or narrow", async () => {
    for (const width of [40, 60, 100]) {
      const { out } = await perform(["check", "shed.json", "--assumptions", "--all"], { files, width });
      for (const line of out.split("\n")) expect(line.length, line).toBeLessThanOrEqual(width);
    }
  });

  it("says as much without colour as with it", async () => {
    const plain = await run("check", "shed.json");
    const coloured = await perform(["check", "shed.json"], { files, terminal: true });
    expect(plain.out).not.toContain("\u001b");
    expect(coloured.out).toContain("\u001b[");
    // biome-ignore lint/suspicious/noControlCharactersInRegex: the codes are what is looked for
    expect(coloured.out.replace(/\u001b\[[\d;]*m/g, "")).toBe(plain.out);
  });

  it("shows progress of long work on the error stream of a terminal only, and clears it", async () => {
    let now = 0;
    const slow = (): number => {
      now += 60;
      return now;
    };
    const stage = { files, clock_ms: slow };
    expect((await perform(["stagger", "shed.json"], stage)).err).toBe("");
    const { err, out } = await perform(["stagger", "shed.json"], { ...stage, terminal: true });
    expect(err).toMatch(/Trying delays 5\d %/);
    expect(err.endsWith("\r\u001b[K")).toBe(true);
    expect(out).not.toContain("Trying");
    const quick = await perform(["stagger", "shed.json"], { files, terminal: true });
    expect(quick.err).toBe("");
  });

  it("counts what was assumed, and lists it on request", async () => {
    const { out } = await run("check", "shed.json", "--json");
    const n = JSON.parse(out).assumptions.length;
    expect(n).toBeGreaterThan(0);
    expect((await run("check", "shed.json")).out).toContain(`${n} values not stated`);
    const { out: listed } = await run("check", "shed.json", "--assumptions");
    expect(listed).toContain("\nAssumed\n");
    expect(listed).not.toContain("values not stated");
  });
});

describe("what is written", () => {
  it("by check --traces: every case, one row a step, beside the usual answer", async () => {
    const { out, written } = await run("check", "shed.json", "--traces", "traces.csv", "--json");
    expect(keys(written)).toEqual(["traces.csv"]);
    const [head, ...rows] = written["traces.csv"].trimEnd().split("\n");
    expect(head).toMatch(/^case,time_s,.*compressor 2 speed_rpm/);
    const columns = head.split(",").length;
    for (const row of rows) expect(row.split(",").length).toBe(columns);
    expect([...new Set(rows.map((row) => row.split(",")[0]))]).toEqual(["one", "together", "staggered"]);
    expect(JSON.parse(out).startgap).toBe("check 1");
  });

  it("by plot: one picture, on standard output when asked", async () => {
    const { status, written, out } = await run("plot", "shed.json", "-o", "start.svg");
    expect([status, keys(written)]).toEqual([0, ["start.svg"]]);
    expect(written["start.svg"]).toMatch(/<svg /);
    expect(out).toContain("start.svg");
    const { status: refused, err } = await perform(["plot", "-", "-o", "x", "--figure", "delay-map"], {
      stdin: alone,
    });
    expect(refused).toBe(2);
    expect(err).toContain("received a cabinet with one motor");
    const piped = await run("plot", "shed.json", "-o", "-");
    expect([piped.written, piped.out]).toEqual([{}, written["start.svg"]]);
  });

  it("by plot: every figure it names, each an SVG of its own", async () => {
    const names = ["overlay", "delay-map", "volts", "time-current", "torque-speed", "single-line"];
    const drawn = await Promise.all(
      names.map((name) => run("plot", "shed.json", "-o", "-", "--figure", name)),
    );
    for (const { status, out } of drawn) {
      expect(status).toBe(0);
      expect(out).toMatch(/<svg /);
      expect(out).not.toMatch(/NaN|Infinity|undefined/);
    }
    expect(new Set(drawn.map(({ out }) => out)).size).toBe(names.length);
  });

  it("by plot: of the part it is told, and refuses a part that is none", async () => {
    const argv = ["plot", "shed.json", "-o", "-", "--figure", "torque-speed", "--part"];
    expect((await run(...argv, "compressor 2")).out).toContain("compressor 2");
    const { status, err } = await run(...argv, "compresor 2");
    expect(status).toBe(2);
    expect(err).toContain("--part: expected a motor of this cabinet: compressor 1, compressor 2");
  });

  it("by demo: its pictures and its cabinet into one folder, and it ends well", async () => {
    const { status, out, written } = await run("demo");
    expect(status).toBe(0);
    expect(keys(written).every((path) => path.startsWith("demo-output"))).toBe(true);
    for (const path of keys(written)) expect(out).toContain(path);
    expect(out).toContain("npm run workbench");
  });
});

describe("motor", () => {
  it("prints the circuit, what was assumed and a table against slip", async () => {
    const { out } = await run("motor", "shed.json", "compressor 1", "--json");
    const { startgap, motors } = JSON.parse(out);
    expect([startgap, motors.length]).toEqual(["motor 1", 1]);
    const [motor] = motors;
    expect(keys(motor)).toEqual(expect.arrayContaining(["part", "circuit", "assumed", "table"]));
    const fields = ["slip", "speed_rpm", "current_A", "torque_Nm", "powerFactor", "efficiency"];
    for (const row of motor.table) expect(keys(row)).toEqual(expect.arrayContaining(fields));
    const slips = motor.table.map((row: { slip: number }) => row.slip);
    expect([slips[0], slips.at(-1)]).toEqual([1, 0]);
    expect(slips).toEqual([...slips].sort((a, b) => b - a));
  });

  it("agrees with an independent solution of the quarter-horse circuit at standstill", async () => {
    // independent code, 110 V at 60 Hz: 17.49 A line and 4.00 N m; half of the last digit given
    const { out } = await perform(["motor", "-", "--json"], { stdin: alone });
    const [rest] = JSON.parse(out).motors[0].table;
    expect(Math.abs(rest.current_A - 17.49)).toBeLessThanOrEqual(0.005);
    expect(Math.abs(rest.torque_Nm - 4.0)).toBeLessThanOrEqual(0.005);
  });

  it("tells a twin as a twin", async () => {
    expect((await run("motor", "shed.json")).out).toContain("compressor 2: the same as compressor 1.");
  });
});

describe("fuse", () => {
  it("prints the fitted terms, melting times that fall with current, and how long it holds the starts", async () => {
    const { out } = await run("fuse", "shed.json", "--json");
    const { startgap, fuses } = JSON.parse(out);
    expect([startgap, fuses.length]).toEqual(["fuse 1", 1]);
    const [{ melt, clearing, times, holds }] = fuses;
    for (const { terms } of [melt, clearing]) {
      const shares = terms.map((term: { share: number }) => term.share);
      // invariant: shares sum to 1, to the seven digits that are printed
      expect(Math.abs(shares.reduce((sum: number, a: number) => sum + a, 0) - 1)).toBeLessThan(1e-6);
    }
    let before = Number.POSITIVE_INFINITY;
    for (const { melting_s, clearing_s } of times) {
      expect(melting_s ?? Number.POSITIVE_INFINITY).toBeLessThanOrEqual(before);
      expect(clearing_s ?? Number.POSITIVE_INFINITY).toBeGreaterThanOrEqual(melting_s ?? 0);
      before = melting_s ?? Number.POSITIVE_INFINITY;
    }
    expect(holds.map((hold: { case: string }) => hold.case)).toEqual(["one", "together", "staggered"]);
    for (const { cold_s, hot_s, startingCurrent_A, runningCurrent_A } of holds) {
      expect(hot_s).toBeLessThan(cold_s);
      expect(runningCurrent_A).toBeLessThan(startingCurrent_A);
    }
  });

  it("melts at the printed time under the printed current, by the terms alone", async () => {
    // closed form: sum a_k (I/I_inf)^2 (1 - exp(-t/tau_k)) = 1 at the melting time, to the printed digits
    const [{ melt, times }] = JSON.parse((await run("fuse", "shed.json", "--json")).out).fuses;
    for (const { current_A, melting_s } of times.filter(
      (t: { melting_s: number | null }) => t.melting_s !== null,
    )) {
      const reached = melt.terms
        .map((k: { share: number; tau_s: number }) => k.share * -Math.expm1(-melting_s / k.tau_s))
        .reduce((sum: number, x: number) => sum + x, 0);
      expect(Math.abs(reached * (current_A / melt.minimumFusing_A) ** 2 - 1)).toBeLessThan(1e-5);
    }
  });

  it("begins with how long the start may last", async () => {
    expect((await run("fuse", "shed.json", "line fuses")).out).toMatch(
      /^line fuses, 30 A: .* may last .* from cold/,
    );
  });
});
