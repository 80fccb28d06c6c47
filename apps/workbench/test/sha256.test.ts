import { createHash } from "node:crypto";
import { expect, it } from "vitest";
import { sha256 } from "../src/report/sha256.ts";

const byNode = (text: string): string => createHash("sha256").update(text, "utf8").digest("hex");

it("gives the digest of FIPS 180-4's own example (published)", () => {
  expect(sha256("abc")).toBe("ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
});

it("agrees with Node's own for texts of every length around a block, and in every script (independent code)", () => {
  for (let length = 0; length <= 130; length++)
    expect(sha256("x".repeat(length))).toBe(byNode("x".repeat(length)));
  for (const text of ["مقبس 2", "0 \u{1f50c} \u0000", "ä".repeat(70_000)])
    expect(sha256(text)).toBe(byNode(text));
});
