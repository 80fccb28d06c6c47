import { examples, issueText, parseCabinet, readCabinet } from "@startgap/cabinet";
import { expect, it } from "vitest";
import { mutated, randomSource } from "../../packages/cabinet/test/support/mutate.ts";

const SEED = 20_000;
const FILES = 500;
/** Far above what the slowest takes, far below what a hang would. */
const LONGEST_ms = 2000;

type Read = ReturnType<typeof readCabinet>;

/** Whatever is reported says in print where it is, what was expected and what was found. Returns how much it was. */
function checkIssues(read: Read, what: string): number {
  if (!("issues" in read)) return 0;
  expect(read.issues.length, what).toBeGreaterThan(0);
  for (const issue of read.issues) {
    expect(issue.expected, what).not.toBe("");
    expect(issue.received, what).not.toBe("");
    expect(issue.received.length, what).toBeLessThanOrEqual(80);
    expect(issueText(issue), what).not.toMatch(/undefined|\[object|\p{Cc}/u);
  }
  return read.issues.length;
}

/** A cabinet that was read holds no number that is none. */
function checkNumbers(value: unknown, what: string): void {
  if (typeof value === "number") expect(value, what).not.toBeNaN();
  else if (typeof value === "object" && value !== null) {
    for (const one of Object.values(value)) checkNumbers(one, what);
  }
}

function timed(read: () => Read, what: string): Read {
  const start = performance.now();
  const result = read();
  expect(performance.now() - start, what).toBeLessThan(LONGEST_ms);
  return result;
}

it("500 changed examples are read or refused with every problem in print, never thrown at (seeded)", () => {
  let refused = 0;
  for (let seed = SEED; seed < SEED + FILES; seed++) {
    const { what, value } = mutated(seed);
    const told = `seed ${seed}: ${what}`;
    const read = timed(() => readCabinet(value), told);
    if (checkIssues(read, told) > 0) refused += 1;
    if ("cabinet" in read) checkNumbers(read.cabinet.circuit, told);
    for (const issue of "issues" in read ? read.issues : []) expect(issue.path === "", told).toBe(false);
  }
  expect(refused).toBeGreaterThan(0.7 * FILES);
});

it("500 damaged texts are refused with a place, never thrown at (seeded)", () => {
  const bits = [
    "",
    '"',
    "{",
    "}",
    "[",
    "]",
    ",",
    ":",
    "\\",
    "\u0000",
    "1e999",
    "-0",
    "null",
    "\ufeff",
    "é",
    "\n",
  ];
  let refused = 0;
  for (let seed = SEED; seed < SEED + FILES; seed++) {
    const random = randomSource(seed);
    const { text } = examples[Math.floor(random() * examples.length)]!;
    const at = Math.floor(random() * text.length);
    const rest = random() < 0.3 ? "" : text.slice(at + Math.floor(random() * 5));
    const damaged = text.slice(0, at) + bits[Math.floor(random() * bits.length)] + rest;
    const told = `seed ${seed}, at ${at}`;
    const read = timed(() => parseCabinet(damaged), told);
    if (checkIssues(read, told) > 0) refused += 1;
    for (const issue of "issues" in read ? read.issues : []) {
      expect(issue.path === "" && issue.received !== "an empty file", told).toBe(false);
    }
  }
  expect(refused).toBeGreaterThan(0.7 * FILES);
});
