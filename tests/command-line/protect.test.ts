import { examples } from "@startgap/cabinet";
import { describe, expect, it } from "vitest";
import { perform } from "./stage.ts";

const shed = examples.find(({ key }) => key === "ice-shed")?.text ?? "";
const files = { "shed.json": shed };

describe("startgap protect", () => {
  it("says what to change, danger first, and exits 1 where something fails", async () => {
    const { status, out, err } = await perform(["protect", "shed.json"], { files });
    expect(err).toBe("");
    expect(status).toBe(1);
    expect(out.indexOf("Danger")).toBeGreaterThan(0);
    expect(out.indexOf("Danger")).toBeLessThan(out.indexOf("What stops the work"));
    expect(out).toMatch(/Change: /);
    expect(out).toMatch(/A fuse in a neutral is no protection/);
    for (const line of out.split("\n")) expect(line.length).toBeLessThanOrEqual(80);
  });

  it("--all names the clause of every finding", async () => {
    const { out } = await perform(["protect", "shed.json", "--all"], { files });
    expect(out.match(/ By: /g)?.length).toBeGreaterThan(15);
  });

  it("--json prints one object and nothing else, with the heat in it", async () => {
    const { out, err } = await perform(["protect", "shed.json", "--json"], { files });
    const told = JSON.parse(out);
    expect(told).toMatchObject({ startgap: "protect 1", rules: "NEC", heat: { startgap: "heat 1" } });
    expect(told.windows[0]).toHaveProperty("candidates");
    expect(err).toBe("");
  });
});

describe("startgap failures", () => {
  it("tells what stays live, what everything sees, and what to change", async () => {
    const { status, out } = await perform(["failures", "shed.json"], { files });
    expect(status).toBe(0);
    expect(out).toMatch(/Stays live: panel/);
    expect(out).toMatch(/Sees: compressor 1/);
    expect(out).toMatch(/midpoint/);
    expect(out).toMatch(/earth and the bond are not in the model/);
    for (const line of out.split("\n")) expect(line.length).toBeLessThanOrEqual(80);
  });

  it("--json prints one object, a row for each failure with both situations", async () => {
    const { out } = await perform(["failures", "shed.json", "--json"], { files });
    const told = JSON.parse(out);
    expect(told.startgap).toBe("failures 1");
    for (const { moments } of told.rows)
      expect(moments.map(({ moment }: { moment: string }) => moment)).toEqual([
        "while running",
        "at the next start",
      ]);
  });
});

describe("bad input", () => {
  for (const command of ["protect", "failures"]) {
    it(`${command} refuses a spoilt file with status 2 and writes nothing`, async () => {
      const bad = shed.replace('"12 AWG Cu"', '"13 AWG Cu"');
      const { status, out, err } = await perform([command, "bad.json"], { files: { "bad.json": bad } });
      expect(status).toBe(2);
      expect(out).toBe("");
      expect(err).toMatch(/conductor/);
    });
  }
});
