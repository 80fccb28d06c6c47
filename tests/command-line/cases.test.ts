import { examples } from "@startgap/cabinet";
import { caseKinds } from "@startgap/study";
import { describe, expect, it } from "vitest";
import { readDipSettings } from "../../apps/cli/src/dipSettings.ts";
import { perform } from "./stage.ts";

const text = (key: string): string => examples.find((one) => one.key === key)?.text ?? "";
const files = {
  "shed.json": text("ice-shed"),
  "air.json": text("shop-air"),
  "barn.json": text("barn-workshop"),
};
const ask = (...argv: string[]) => perform(argv, { files });

describe("startgap cases", () => {
  it("tells danger first, then what stops the work, each with what to change, then case by case", async () => {
    const { status, out, err } = await ask("cases", "shed.json");
    expect(err).toBe("");
    expect(status).toBe(1);
    const heads = ["Danger", "What stops the work", "Case by case", "Not told"].map((head) =>
      out.indexOf(`\n${head}\n`),
    );
    expect(heads.every((at) => at > 0)).toBe(true);
    expect(heads).toEqual([...heads].sort((a, b) => a - b));
    expect(out).toMatch(/Change: Give it a protector/);
    expect(out).toMatch(/^CAUTION {2}A dip to 0 % for 60 ms: contactor lets go/m);
    expect(out).toMatch(/contactor welded: No compressor is known to fill a receiver/);
    for (const line of out.split("\n")) expect(line.length).toBeLessThanOrEqual(80);
  });

  it("takes only the cases that are named, however they are spelt, and its own dip", async () => {
    const { out, status } = await ask(
      ...["cases", "air.json", "--case", "Power-Return,dip", "--case", "lowline"],
      ...["--left", "55", "--length", "2 s", "--json"],
    );
    const told = JSON.parse(out);
    expect(told.startgap).toBe("cases 1");
    expect(told.cases.map((one: { case: string }) => one.case)).toEqual(["power return", "dip", "low line"]);
    expect(told.cases[1].about).toContain("55 % of nominal for 2.0 s");
    expect(status).toBe(told.findings.some((f: { outcome: string }) => f.outcome === "fail") ? 1 : 0);
    for (const finding of told.findings) {
      expect(["danger", "stops work", "note"]).toContain(finding.gravity);
      expect(finding.change === null).toBe(finding.outcome === "pass");
    }
  });

  it("exits 0 when what was asked does not fail, and says in a line that it does not", async () => {
    const { out, status } = await ask("cases", "air.json", "--case", "power return");
    expect(status).toBe(0);
    expect(out).toMatch(/^PASS +All of 1 case pass\.$/m);
  });

  it("--all gives every finding its own sentence; without it those alike are told once", async () => {
    const [short, long] = [await ask("cases", "shed.json"), await ask("cases", "shed.json", "--all")];
    expect(short.out).toMatch(/Much the same: compressor/);
    expect(long.out).not.toMatch(/Much the same/);
    expect(long.out.length).toBeGreaterThan(short.out.length);
  });

  it("--tries sets how often a held motor is tried", async () => {
    const { out } = await ask("cases", "shed.json", "--case", "tries in a row", "--tries", "5");
    expect(out).toMatch(/held still and tried 5 times/);
  });

  it("shows its progress on a terminal, and nothing elsewhere", async () => {
    let now = 0;
    const clock_ms = () => (now += 500);
    const watched = await perform(["cases", "shed.json"], { files, terminal: true, clock_ms });
    expect(watched.err).toMatch(/Telling cases \d+ %/);
    const { err } = await perform(["cases", "shed.json"], { files, clock_ms });
    expect(err).toBe("");
  });
});

describe("startgap dips", () => {
  it("prints the map with its signs, the edges in words, and what to change", async () => {
    const { status, out } = await ask("dips", "air.json");
    expect(status).toBe(0);
    expect(out).toMatch(/^CAUTION {2}After some dips, of 20 ms to 5 s, all motors restart together\.$/m);
    expect(out).toMatch(/Change: Fit a lock-out timer .* loses its count/s);
    expect(out).toMatch(/^left +10 +20 .* 5000 +ms$/m);
    expect(out).toMatch(/^0 % +\. +T\+ +T\+ .*S\+$/m);
    expect(out.replace(/\s+/g, " ")).toContain(
      "0 % to 50 % left: every motor runs on up to 15 ms, then all restart together up to 80 ms, then a staggered",
    );
    for (const line of out.split("\n")) expect(line.length).toBeLessThanOrEqual(80);
  });

  it("leaves the grid out where a screen is too narrow for it, and says the edges all the same", async () => {
    const { out } = await perform(["dips", "air.json"], { files, width: 50 });
    expect(out).not.toMatch(/5000/);
    expect(out).toMatch(/runs on up to 15 ms/);
    for (const line of out.split("\n")) expect(line.length).toBeLessThanOrEqual(50);
  });

  it("tells one dip in a sentence, and when each motor is back", async () => {
    const { status, out } = await ask("dips", "air.json", "--left", "40 %", "--length", "60 ms");
    expect(status).toBe(0);
    expect(out.replace(/\s+/g, " ")).toContain(
      "CAUTION A dip to 40 % for 60 ms: contactor lets go; the delay is not counted again; all restart together",
    );
    expect(out).toMatch(/^compressor 2: back 20 ms after it\.$/m);
  });

  it("exits 1 where something does not come back", async () => {
    expect((await ask("dips", "shed.json", "--left", "80", "--length", "3 s")).status).toBe(1);
  });

  it("--json prints the map, or the one dip, and nothing else", async () => {
    const map = JSON.parse((await ask("dips", "air.json", "--json")).out);
    expect(map).toMatchObject({ startgap: "dips 1", delay_s: 4 });
    expect(map.outcomes).toHaveLength(map.left.length);
    for (const row of map.outcomes) expect(row).toHaveLength(map.length_s.length);
    expect(map.edges.length).toBeGreaterThan(map.left.length);
    const one = JSON.parse((await ask("dips", "air.json", "--left", "0", "--length", "1 s", "--json")).out);
    expect(one).toMatchObject({
      startgap: "dips 1",
      dip: { left: 0, length_s: 1, end: "staggered", verdict: "pass" },
    });
  });

  it("-o draws the map, and says where", async () => {
    const { out, written } = await ask("dips", "air.json", "-o", "map.svg");
    expect(out).toMatch(/^Wrote map\.svg$/m);
    expect(written["map.svg"]).toMatch(/<svg .*every motor runs on.*<\/svg>/s);
  });

  it("of a generator there is none: it says why, draws nothing, and exits 0", async () => {
    const { status, out, written } = await ask("dips", "barn.json", "-o", "map.svg");
    expect(status).toBe(0);
    expect(out).toMatch(/No dips to try\. Its supply is no line of a utility/);
    expect(written).toEqual({});
    expect(JSON.parse((await ask("dips", "barn.json", "--json")).out)).toHaveProperty("skipped");
  });
});

describe("wrong input", () => {
  it("tells every wrong option at once, with what it takes", async () => {
    const { status, out, err } = await ask(
      ...[
        "cases",
        "shed.json",
        "--case",
        "low line,weldd",
        "--left",
        "100",
        "--length",
        "0 s",
        "--tries",
        "2.5",
      ],
      ...["--delay", "soon"],
    );
    expect([status, out]).toEqual([2, ""]);
    expect(err).toContain("--case: expected one of first start, trapped head, ");
    expect(err).toContain("--left: expected what is left of the voltage in percent, from 0 to below 100");
    expect(err).toContain('--length: expected a time above 0 s, up to 1 h, as "100 ms"; received "0 s"');
    expect(err).toContain("--tries: expected a whole number from 1 to 20");
    expect(err).toContain("--delay: expected a time");
    expect(err).toContain("5 errors; nothing was written");
  });

  it("names the case that was meant, where a piece of it was typed", async () => {
    expect((await ask("cases", "shed.json", "--case", "welded")).err).toContain(
      'did you mean "contactor welded"?',
    );
  });

  it("asks for a dip's other half, and for the map where a picture is wanted", async () => {
    for (const [given, other] of [
      [["--left", "40"], "--length"],
      [["--length", "1 s"], "--left"],
    ] as const)
      expect((await ask("dips", "shed.json", ...given)).err).toContain(
        `${other}: expected it beside ${given[0]}`,
      );
    const { status, err, written } = await ask(
      ...["dips", "shed.json", "--left", "40", "--length", "1 s", "-o", "map.svg"],
    );
    expect([status, written]).toEqual([2, {}]);
    expect(err).toContain("--output: expected a picture of the map");
  });

  it("writes nothing beside a spoilt file or into a folder that is not there", async () => {
    const bad = text("shop-air").replace('"8 AWG Cu"', '"9.5 AWG Cu"');
    for (const command of ["cases", "dips"]) {
      const { status, out } = await perform([command, "bad.json"], { files: { "bad.json": bad } });
      expect([status, out]).toEqual([2, ""]);
    }
    expect((await ask("dips", "air.json", "-o", "nowhere/map.svg")).status).toBe(2);
    expect((await ask("dips", "air.json", "-o", "air.json")).err).toContain("the cabinet file itself");
  });

  for (const left of ["-1", "1e9", "40 V", "", "forty", "NaN", "%"]) {
    it(`refuses ${JSON.stringify(left)} as what is left`, () => {
      const { issues } = readDipSettings({ left, length: "1 s" });
      expect(issues).toMatchObject([{ path: "--left", received: JSON.stringify(left) }]);
    });
  }

  it("takes every name of a case as it is told", () => {
    expect(readDipSettings({ case: [caseKinds.join(",")] }).settings.only).toEqual(caseKinds);
    expect(readDipSettings({}).settings).toEqual({});
  });
});
