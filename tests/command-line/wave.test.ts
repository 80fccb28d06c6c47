import { examples } from "@startgap/cabinet";
import { describe, expect, it } from "vitest";
import { perform } from "./stage.ts";

const textOf = (key: string): string => examples.find((example) => example.key === key)?.text ?? "";
const files = { "shed.json": textOf("ice-shed"), "horse.json": textOf("quarter-horse") };
/** As read, wherever the lines break. */
const unbroken = (text: string): string => text.replace(/\s+/g, " ");
const wave = (...argv: string[]) => perform(["wave", ...argv], { files });

describe("startgap wave", () => {
  it("tells what a clamp meter, a fuse and the other resolution make of a start", async () => {
    const { status, out, err } = await wave("shed.json", "--case", "one", "--to", "0.4 s");
    expect([status, err]).toEqual([0, ""]);
    expect(out).toContain('Waveform of "first alone", 0 s to 0.4 s');
    expect(out).toMatch(/compressor 1 +0 s +9\d A +1[34]\d A/);
    expect(out).toMatch(/compressor 2 +- +- +- +-/);
    expect(out).toMatch(/line fuses: its heaviest 0.10 s, .* of what melts it/);
    expect(out).toContain("Against the rms resolution");
    expect(out).toContain("licensed electrician");
  });

  it("prints one JSON object, wave 1, with what was read and how many samples there are", async () => {
    const { status, out } = await wave("horse.json", "--to", "0.2 s", "--from", "0.1 s", "--json");
    expect(status).toBe(0);
    const told = JSON.parse(out);
    expect(told).toMatchObject({ startgap: "wave 1", case: "one", from_s: 0.1, to_s: 0.2, switchOn: null });
    expect(told.samples).toBe(769);
    expect(Object.keys(told.motors[0])).toEqual(["clamp", "firstPeakAsymmetry"]);
    expect(told.traces).toBeUndefined();
  });

  it("sweeps for the worst angle, and writes samples and a picture", async () => {
    const asked = ["--angle", "worst", "--to", "0.1 s", "--traces", "w.csv", "-o", "w.svg"];
    const { status, out, written } = await wave("horse.json", ...asked);
    expect(status).toBe(0);
    expect(unbroken(out)).toContain("the worst of half a turn");
    const [head, first, ...rest] = written["w.csv"].trim().split("\n");
    expect(head).toMatch(/^case,time_s,bench voltage_V,bench rms voltage_V,bench current_A/);
    expect(first).toMatch(/^one,0,/);
    expect(rest).toHaveLength(768);
    expect(written["w.svg"]).toMatch(/^<\?xml[\s\S]*Voltage at bench/);
  });

  it("switches the supply on when asked, judges it, and draws it", async () => {
    const { status, out, written } = await wave(
      "shed.json",
      "--case",
      "one",
      "--to",
      "0.1 s",
      "--inrush",
      "-o",
      "s.svg",
    );
    expect(status).toBe(0);
    expect(unbroken(out)).toMatch(/Switched on .* the worst of 48 tries: first peak \d+ A/);
    expect(out).toMatch(/PASS +line fuses/);
    expect(written["s.svg"]).toContain("Harmonics of the first cycle");
  });

  it("reads an angle with its unit or without, and says where a clamp meter's window ends", async () => {
    const told = async (...argv: string[]) =>
      JSON.parse((await wave("horse.json", "--to", "0.1 s", "--json", ...argv)).out);
    expect((await told("--angle", "30 deg")).angle_deg).toBe(30);
    expect((await told("--angle", "-45")).angle_deg).toBe(-45);
    expect((await told("--clamp", "50 ms")).line.window_s).toBe(0.05);
  });
});

describe("startgap wave refuses", () => {
  it.each([
    [["--case", "two"], "--case: expected one, together or staggered"],
    [["--angle", "400"], "--angle: expected an angle"],
    [["--angle", "high"], "--angle: expected an angle"],
    [["--from", "3 s", "--to", "2 s"], "--to: expected a time after 3 s"],
    [["--from", "-1 s"], "--from: expected a time"],
    [["--to", "700 s"], "--to: expected a time up to 600 s"],
    [["--to", "500 s"], "--to: expected at most"],
    [["--clamp", "5 h"], "--clamp: expected a time from 1 ms"],
    [["--part", "saw"], "--part: expected a part of this cabinet"],
    [["--case", "staggered"], "--case: expected one: this cabinet has no second motor"],
    [["--tolerance", "1"], "--tolerance: expected a number"],
  ])("%j with status 2, in a sentence, and writes nothing", async (argv, says) => {
    const { status, err, out, written } = await wave("horse.json", ...argv, "--traces", "x.csv");
    expect(status).toBe(2);
    expect(err).toContain(says);
    expect([out, written]).toEqual(["", {}]);
  });

  it("all that is wrong at once", async () => {
    const { err } = await wave("horse.json", "--case", "x", "--angle", "y", "--clamp", "z");
    expect(err).toContain("3 errors");
  });
});
