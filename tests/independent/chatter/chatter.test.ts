import type { Cabinet } from "@startgap/cabinet";
import { type CaseName, type Check, check, type Finding, isFailure } from "@startgap/study";
import { describe, expect, it } from "vitest";
import { circuitOf, type Entry, entries } from "./given.ts";

/** A circuit given outright as a cabinet that was read. */
function cabinetOf({ given }: Entry): Cabinet {
  const circuit = circuitOf(given);
  const relays = circuit.parts.flatMap((p) =>
    p.is === "delay relay"
      ? [{ name: p.name, delay_s: { nominal: p.delay_s, low: p.delay_s, high: p.delay_s } }]
      : [],
  );
  return {
    title: given.name,
    circuit,
    assumptions: [],
    notes: [],
    relays,
    file: {},
    nominalVoltage_V: {},
    ranges: [],
    facts: {},
    enclosure: null,
  };
}

function checked(entry: Entry): Check {
  const result = check(cabinetOf(entry), { withMap: false, duration_s: entry.given.end });
  if (isFailure(result)) throw new Error(result.failed);
  return result;
}

/** As data.json has it: both at once, or as the relay holds the second back. */
const caseOf = ({ given }: Entry): CaseName => (given.relay === null ? "together" : "staggered");

const asked = (result: Check, entry: Entry, finding: string): Finding | undefined =>
  result.report.findings.find((f) => f.case === caseOf(entry) && f.finding === finding);

/** Times of lags and timers come from thresholds that are crossed within the solver's own tolerance. */
const TIMES_s = 1e-4;

describe.each(entries.map((entry) => [entry.given.name, entry] as const))("%s", (_, entry) => {
  const { found, given } = entry;
  const result = checked(entry);
  const report = result.report.cases.find((one) => one.case === caseOf(entry));
  const story = result.stories.find((one) => one.case === caseOf(entry));
  const [contactor] = report?.contactors ?? [];

  it("lets go and closes again as often in the plain check (independent code: SciPy, exact count)", () => {
    expect(found.opens).toBeGreaterThan(3);
    expect(contactor.dropOuts).toBe(found.opens);
    expect(contactor.closesAgain?.times).toBe(found["closes again"]);
    expect(contactor.closesAgain?.inOneSecond).toBe(found["in one second"]);
  });

  it("opens, closes, resets and times out at the same moments (independent code: SciPy, 0.1 ms)", () => {
    const names: Readonly<Record<string, string>> = {
      "contactor: opens": "opens",
      "contactor: pulls in": "closes",
      "relay: resets": "resets",
      "relay: closes": "times out",
    };
    const ours = (story?.events ?? []).flatMap(({ part, what, at_s }) => {
      const short = names[`${part}: ${what}`];
      return short === undefined ? [] : [[short, at_s] as const];
    });
    expect(ours.map(([name]) => name)).toEqual(found.events.map(([name]) => name));
    for (const [i, [, at_s]] of ours.entries())
      expect(Math.abs(at_s - (found.events[i][1] as number))).toBeLessThan(TIMES_s);
  });

  it("meets the same current at the worst closing, and the same speeds at the end (independent code: SciPy, 1 %, 1e-4)", () => {
    expect(Math.abs((contactor.closesAgain?.most_A ?? 0) / (found["most A"] ?? 0) - 1)).toBeLessThan(0.01);
    for (const [j, want] of found.speeds.entries()) {
      const rpm = report?.motors[j].finalSpeed_rpm ?? 0;
      expect(Math.abs((rpm * Math.PI) / 30 - want)).toBeLessThan(1e-4 * Math.max(want, 1));
    }
  });

  it("is judged by that count: contacts that close again within a second may weld", () => {
    const welds = asked(result, entry, "contacts weld");
    const within = found["in one second"];
    expect(welds).toMatchObject({ gravity: "danger", value: within });
    expect(welds?.outcome).toBe(within <= 1 ? "pass" : within < 3 ? "caution" : "fail");
    expect(welds?.says).toContain(`closes ${found["closes again"]} times more`);
    expect(asked(result, entry, "contactor holds")).toMatchObject({ outcome: "fail" });
    expect(asked(result, entry, "contactor holds")?.says).toContain(`drops out ${found.opens} times`);
    expect(given.coil.drop).toBeLessThan(given.coil.pull);
  });
});
