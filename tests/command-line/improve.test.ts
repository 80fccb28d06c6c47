import { examples } from "@startgap/cabinet";
import { describe, expect, it } from "vitest";
import { perform } from "./stage.ts";

const shed = examples.find(({ key }) => key === "ice-shed")?.text ?? "";
const files = { "shed.json": shed };

describe("startgap improve", () => {
  it("names the change that helps most first, and fits the screen", async () => {
    const { status, out, err } = await perform(["improve", "shed.json"], { files });
    expect(err).toBe("");
    expect(status).toBe(0);
    expect(out).toMatch(/^feeder: 8 AWG Cu instead of 12 AWG Cu helps most: /);
    expect(out).toMatch(/startgap protect/);
    for (const line of out.split("\n")) expect(line.length).toBeLessThanOrEqual(80);
  });

  it("--json prints one object and nothing else", async () => {
    const { out, err } = await perform(["improve", "shed.json", "--json"], { files });
    const told = JSON.parse(out);
    expect(told).toMatchObject({ startgap: "improve 1", asItIs: { fails: 0, together: false } });
    expect(told.changes[0]).toMatchObject({ part: "feeder", to: "8 AWG Cu", helps: true, failed: null });
    expect(err).toBe("");
  });

  it.each([
    ["a spoilt file", ["improve", "bad.json"], /conductor/],
    ["a file that is not there", ["improve", "none.json"], /none\.json/],
    ["an option it does not have", ["improve", "shed.json", "--price"], /--price/],
    ["a delay without a unit", ["improve", "shed.json", "--delay", "6"], /delay/],
  ])("refuses %s with status 2", async (_, args, says) => {
    const bad = shed.replace('"12 AWG Cu"', '"13 AWG Cu"');
    const { status, out, err } = await perform(args, { files: { ...files, "bad.json": bad } });
    expect(status).toBe(2);
    expect(out).toBe("");
    expect(err).toMatch(says);
  });
});
