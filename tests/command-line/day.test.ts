import { examples } from "@startgap/cabinet";
import { describe, expect, it } from "vitest";
import { perform } from "./stage.ts";

const textOf = (key: string): string => examples.find((example) => example.key === key)?.text ?? "";
const files = { "shed.json": textOf("ice-shed"), "shop.json": textOf("shop-air") };
/** As read, wherever the lines break. */
const unbroken = (text: string): string => text.replace(/\s+/g, " ");
const day = (...argv: string[]) => perform(["day", ...argv], { files });

describe("startgap day", () => {
  it("tells starts, temperatures and fuses of a day that the file states, danger first", async () => {
    const { status, out, err } = await day("shop.json", "--hours", "9");
    expect([status, err]).toEqual([0, ""]);
    expect(unbroken(out)).toContain("Nothing fails in a summer day");
    expect(out).toMatch(/Reached 9 h\. \d+ starts, air drawn as the file states it/);
    expect(out).toMatch(/compressor 1 +\d+ +\d of 10/);
    expect(out).toMatch(/line fuses +\d\d % at 0\d:\d\d +\d\d degC/);
    expect(out).toContain("What stops the work");
    expect(out).toContain("licensed electrician");
    for (const line of out.split("\n")) expect(line.length).toBeLessThanOrEqual(80);
  });

  it("says that a clock calls where no pressure switch does, and how often", async () => {
    const { out } = await day("shed.json", "--hours", "2", "--calls", "6");
    expect(out).toContain("called by a clock, assumed");
    expect(unbroken(out)).toContain("6 calls an hour are taken");
    expect(out).toMatch(/compressor 1 +12 +6 of/);
  });

  it("--json prints one object, day 1, with its columns", async () => {
    const asked = ["--hours", "2", "--season", "winter", "--demand", "2 l/s", "--json"];
    const { out, err } = await day("shop.json", ...asked);
    const told = JSON.parse(out);
    expect(err).toBe("");
    expect(told).toMatchObject({ startgap: "day 1", season: "winter", hours: 2, demand: "as asked" });
    for (const { values } of told.traces.columns) expect(values).toHaveLength(told.traces.time_s.length);
    expect(told.starts.time_s.length).toBe(told.motors[0].starts + told.motors[1].starts);
  });

  it("writes columns and a picture, both whole", async () => {
    const { out, written } = await day("shop.json", "--hours", "1", "--traces", "d.csv", "-o", "d.svg");
    const [head, first, ...rest] = written["d.csv"].trim().split("\n");
    expect(head).toMatch(/^case,time_s,air temperature outside_degC,tank 1 pressure_kPa/);
    expect(first).toMatch(/^summer,0,/);
    expect(rest.length).toBeGreaterThan(20);
    expect(written["d.svg"]).toMatch(/^<\?xml[\s\S]*Temperature, degC/);
    expect(out).toContain("Wrote d.csv");
  });

  it("--all names the clause of every finding", async () => {
    const { out } = await day("shop.json", "--hours", "1", "--all");
    expect(out.match(/ By: /g)?.length).toBeGreaterThan(8);
  });

  it("takes an interruption by the clock: motors start once more", async () => {
    const starts = async (...more: string[]): Promise<number> =>
      JSON.parse((await day("shed.json", "--hours", "1", "--json", ...more)).out).starts.time_s.length;
    expect(await starts("--outage", "0:20", "--outage-for", "30 s")).toBeGreaterThan(await starts());
  });

  it("shows on a terminal how far it is, and clears that again", async () => {
    let now = 0;
    const clock_ms = (): number => (now += 150);
    const { err } = await perform(["day", "shop.json", "--hours", "1"], { files, terminal: true, clock_ms });
    expect(err).toMatch(/Going through the day \d+ %/);
    expect(err.endsWith("\r\u001b[K")).toBe(true);
  });
});

describe("startgap day refuses", () => {
  it.each([
    [["shop.json", "--season", "spring"], "--season: expected summer or winter"],
    [["shop.json", "--hours", "0"], "--hours: expected hours from 0.1 to 168"],
    [["shop.json", "--hours", "a day"], "--hours: expected hours"],
    [["shop.json", "--demand", "4"], "--demand: expected a flow of free air"],
    [["shop.json", "--demand", "900 cfm"], "--demand: expected a flow of free air from 0 cfm to 200 cfm"],
    [["shed.json", "--demand", "4 cfm"], "--demand: expected a cabinet with a receiver"],
    [["shop.json", "--calls", "4"], "--calls: expected a cabinet without a pressure switch"],
    [["shed.json", "--calls", "0"], "--calls: expected calls an hour from 0.1 to 30"],
    [["shed.json", "--outage", "25:10"], "--outage: expected a time of day"],
    [["shed.json", "--hours", "3", "--outage", "4 h"], "--outage: expected a time before the 3 h end"],
    [["shed.json", "--outage-for", "5 s"], "--outage-for: expected --outage with it"],
    [["shed.json", "--outage", "9 h", "--outage-for", "2 days"], "--outage-for: expected a time from 1 ms"],
    [["shed.json", "--delay", "soon"], "--delay: expected a time"],
    [["shed.json", "-o", "nowhere/day.svg"], "--output: expected a file that can be written"],
    [["shed.json", "-o", "day.svg", "--traces", "day.svg"], "--traces: expected a file that can be written"],
    [["gone.json"], "expected a cabinet file that can be read"],
  ] as const)("%j", async (argv, says) => {
    const { status, out, err, written } = await day(...argv);
    expect(status).toBe(2);
    expect(unbroken(err)).toContain(says);
    expect([out, written]).toEqual(["", {}]);
  });

  it("tells everything that is wrong at once", async () => {
    const { err } = await day("shed.json", "--season", "spring", "--hours", "0", "--demand", "x");
    expect(err).toContain("3 errors");
  });
});
