import { examples } from "@startgap/cabinet";
import { expect, it, vi } from "vitest";
import { perform } from "./stage.ts";

const failure = { failed: "Gave up at 0.312 s: speed of compressor 1 is not finite.", at_s: 0.312 };

vi.mock("@startgap/study", async (original) => ({
  ...(await original<typeof import("@startgap/study")>()),
  check: () => failure,
  delayMap: () => {
    throw new RangeError("invalid delay: -1 (expected 0 or more)");
  },
}));

const files = { "a.json": examples[0].text };

it("a study that cannot be finished ends with 3 and its sentence, nothing printed, nothing written", async () => {
  for (const argv of [
    ["check", "a.json", "--json", "--traces", "t.csv"],
    ["plot", "a.json", "-o", "a.svg"],
    ["demo"],
  ]) {
    const { status, out, err, written } = await perform(argv, { files });
    expect({ status, out, written }).toEqual({ status: 3, out: "", written: {} });
    expect(err).toBe(`startgap: ${failure.failed}\n`);
  }
});

it("a programmer's error ends with 3 in one sentence, without a stack", async () => {
  const { status, out, err } = await perform(["stagger", "a.json", "--json"], { files });
  expect({ status, out }).toEqual({ status: 3, out: "" });
  expect(err).toBe(
    "startgap: could not finish (a fault in startgap, not in what it was given): invalid delay: -1 (expected 0 or more)\n",
  );
});
