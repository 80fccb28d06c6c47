import { examples } from "@startgap/cabinet";
import { describe, expect, it } from "vitest";
import { perform } from "./stage.ts";

const textOf = (key: string): string => examples.find((one) => one.key === key)?.text ?? "";
const files = { "shop.json": textOf("two-legs"), "horse.json": textOf("quarter-horse") };

describe("startgap vary", () => {
  it("tells whether it still passes and what decides, and fits the screen", async () => {
    const { status, out, err } = await perform(["vary", "shop.json", "--draws", "40"], { files });
    expect(err).toBe("");
    expect(status).toBe(0);
    expect(out).toMatch(/^PASS {5}Nothing fails in any of 40 draws\./);
    expect(out).toMatch(/yard panel +impedance\.r +0\.06 to 0\.1 ohm +most/);
    for (const line of out.split("\n")) expect(line.length).toBeLessThanOrEqual(80);
  });

  it("--json prints one object and nothing else, the same for the same seed", async () => {
    const argv = ["vary", "shop.json", "--draws", "20", "--seed", "3", "--json"];
    const { out, err } = await perform(argv, { files });
    expect(JSON.parse(out)).toMatchObject({ startgap: "vary 1", draws: 20, refused: 0 });
    expect(err).toBe("");
    expect((await perform(argv, { files })).out).toBe(out);
  });

  it.each([
    [["vary", "shop.json", "--draws", "1"], "--draws: expected a whole number from 2 to 100000"],
    [["vary", "shop.json", "--draws", "many"], "--draws: expected a whole number"],
    [["vary", "shop.json", "--seed", "-1"], "--seed: expected a whole number from 0"],
    [["vary", "horse.json"], "a file without a range"],
  ])("refuses %j with status 2", async (argv, says) => {
    const { status, out, err } = await perform(argv, { files });
    expect(status).toBe(2);
    expect(out).toBe("");
    expect(err).toContain(says);
  });
});
