import { describe, expect, it } from "vitest";
import { findingsOf } from "../src/findings.ts";
import type {
  CaseName,
  CaseReport,
  ContactorResult,
  Finding,
  FuseResult,
  MotorResult,
  PointResult,
} from "../src/results.ts";
import { circuit, coil, contactor, fuse, load, motor, quarterHorse, slowMelt, supply } from "./build.ts";

const shop = circuit(
  supply(),
  fuse("fuse", "panel", slowMelt(20)),
  fuse("bare fuse", "fuse", null),
  contactor("contactor", "bare fuse", coil("fuse")),
  contactor("switch", "contactor", null),
  motor("pump", "switch", { machine: { ...quarterHorse, voltage_V: 100 } }),
  load("lamp", "fuse"),
);

const pump: MotorResult = {
  part: "pump",
  outcome: "running",
  closed_s: 0,
  switchOpened_s: 0.4,
  runUp_s: 0.5,
  peakCurrent_A: 30,
  lowestVoltage_V: 95,
  finalSpeed_rpm: 1750,
  finalCurrent_A: 6,
};
const lamp: PointResult = {
  part: "lamp",
  nominal_V: 120,
  lowestVoltage_V: 115,
  below90_s: 0,
  finalVoltage_V: 118,
};
const good: ContactorResult = { part: "contactor", dropOuts: 0, lowestCoil_V: 110, closed_s: 0 };
const cool: FuseResult = {
  part: "fuse",
  meltFraction: 0.25,
  currentMargin: 2,
  peakCurrent_A: 30,
  opened_s: null,
};

interface Results {
  readonly case?: CaseName;
  readonly motors?: readonly MotorResult[];
  readonly points?: readonly PointResult[];
  readonly contactors?: readonly ContactorResult[];
  readonly fuses?: readonly FuseResult[];
}

function judge(
  results: Results,
  times: readonly number[] = [0, 0, 0],
  heldBack: readonly string[] = [],
): Finding[] {
  const report: CaseReport = {
    case: "staggered",
    delay_s: 3,
    duration_s: 15,
    ended: "Reached 15 s.",
    motors: [],
    points: [],
    contactors: [],
    fuses: [],
    worst: null,
    ...results,
  };
  return findingsOf({
    report,
    circuit: shop,
    below: new Map([["lamp", times]]),
    heldBack: new Set(heldBack),
  });
}

const outcome = (findings: readonly Finding[], name: string): string | undefined =>
  findings.find(({ finding }) => finding === name)?.outcome;

describe("findings against the table of limits: both sides of every step", () => {
  it.each([
    [3, "pass"],
    [3.0001, "caution"],
    [5, "caution"],
    [5.0001, "fail"],
    [null, "fail"],
  ])("a run-up of %s s: %s", (runUp_s, expected) => {
    expect(outcome(judge({ motors: [{ ...pump, runUp_s }] }), "run-up")).toBe(expected);
  });

  it.each([
    [90, "pass"],
    [89.99, "caution"],
    [80, "caution"],
    [79.99, "fail"],
  ])("a motor at %s %% of its rated voltage: %s", (lowestVoltage_V, expected) => {
    expect(outcome(judge({ motors: [{ ...pump, lowestVoltage_V }] }), "lowest motor voltage")).toBe(expected);
  });

  it.each([
    [108, "pass"],
    [107.99, "caution"],
  ])("a receptacle at %s of 120 V for a moment: %s", (lowestVoltage_V, expected) => {
    expect(outcome(judge({ points: [{ ...lamp, lowestVoltage_V }] }), "receptacle sag")).toBe(expected);
  });

  it.each([
    [[10, 0, 0], "caution"],
    [[10.001, 0, 0], "fail"],
    [[1, 0.5, 0], "caution"],
    [[1, 0.501, 0], "fail"],
    [[1, 0.1, 0.02], "caution"],
    [[1, 0.1, 0.021], "fail"],
  ])("below 90, 80 and 70 %% for %s s: %s", (times, expected) => {
    expect(outcome(judge({ points: [{ ...lamp, lowestVoltage_V: 60 }] }, times), "receptacle sag")).toBe(
      expected,
    );
  });

  it.each([
    [108, "caution"],
    [107.99, "fail"],
  ])("a receptacle left at %s of 120 V: %s", (finalVoltage_V, expected) => {
    const left = { ...lamp, lowestVoltage_V: 100, finalVoltage_V };
    expect(outcome(judge({ points: [left] }, [2, 0, 0]), "receptacle sag")).toBe(expected);
  });

  it.each([
    [102, 0, 0, "pass"],
    [101.9, 0, 0, "caution"],
    [80, 0, 0, "caution"],
    [110, 1, 0, "fail"],
    [95.9, 0, null, "fail"],
    [96, 0, null, "caution"],
    [null, 0, null, "fail"],
  ])(
    "a 120 V coil at %s V with %s drop-outs, closed at %s s: %s",
    (lowestCoil_V, dropOuts, closed_s, expected) => {
      const told = { ...good, lowestCoil_V, dropOuts, closed_s };
      expect(outcome(judge({ contactors: [told] }), "contactor holds")).toBe(expected);
    },
  );

  it.each([
    [1.25, null, "pass"],
    [1.2499, null, "caution"],
    [1, null, "caution"],
    [1, 3.5, "fail"],
    [null, null, "pass"],
  ])("a fuse with a margin of %s, melted at %s s: %s", (currentMargin, opened_s, expected) => {
    expect(outcome(judge({ fuses: [{ ...cool, currentMargin, opened_s }] }), "fuse holds")).toBe(expected);
  });
});

describe("findings", () => {
  const everything = { motors: [pump], points: [lamp], contactors: [good], fuses: [cool] };

  it("ask every question once, and none of a fuse without a curve or a contactor without a coil", () => {
    const told = judge({
      ...everything,
      contactors: [good, { part: "switch", dropOuts: 0, lowestCoil_V: null, closed_s: 0 }],
      fuses: [cool, { ...cool, part: "bare fuse", currentMargin: null }],
    });
    expect(told.map(({ finding, part }) => `${finding}: ${part}`)).toEqual([
      "run-up: pump",
      "lowest motor voltage: pump",
      "receptacle sag: lamp",
      "contactor holds: contactor",
      "fuse holds: fuse",
    ]);
  });

  it("give figure, limit of a pass, unit and basis, and a sentence that names the part", () => {
    for (const finding of judge(everything)) {
      expect(finding).toMatchObject({ case: "staggered", outcome: "pass" });
      expect(finding.value).toEqual(expect.any(Number));
      expect(finding.limit).toEqual(expect.any(Number));
      expect(finding.basis.length).toBeGreaterThan(20);
      expect(finding.says).toMatch(new RegExp(`^${finding.part}: .*\\.$`));
    }
  });

  it("ask nothing of what is held back", () => {
    const off = { ...pump, outcome: "off", closed_s: null, runUp_s: null, lowestVoltage_V: null } as const;
    expect(judge({ case: "one", motors: [off] }, undefined, ["pump"])).toEqual([]);
  });

  it("fail a motor that should start and is never switched on, also alone", () => {
    const off = { ...pump, outcome: "off", closed_s: null, runUp_s: null, lowestVoltage_V: null } as const;
    const told = judge({ case: "one", motors: [off] });
    expect(outcome(told, "run-up")).toBe("fail");
    expect(told[0].says).toBe("pump: not switched on in the time shown.");
    expect(outcome(told, "lowest motor voltage")).toBeUndefined();
  });

  it.each([
    ["tripped", "pump: does not start, the fuse ahead of it opens."],
    ["off", "pump: cut off before it is up to speed, and stays off."],
    ["running", "pump: runs but does not settle in the time shown."],
    ["stalled", "pump: does not come up to speed, it hums at 240 rpm and draws 42 A."],
  ] as const)("say why there is no run-up: %s", (ending, says) => {
    const told = judge({
      motors: [{ ...pump, outcome: ending, runUp_s: null, finalSpeed_rpm: 240, finalCurrent_A: 42 }],
    });
    expect(told[0].says).toBe(says);
  });

  it("say that a motor is cut off again and again where a contactor chatters, and that it is a danger to stand still", () => {
    const off = { ...pump, outcome: "off", runUp_s: null } as const;
    const told = judge({ motors: [off], contactors: [{ ...good, dropOuts: 3 }] });
    expect(told[0].says).toBe("pump: cut off again and again before it is up to speed.");
    expect(told[0].gravity).toBe("stops work");
    const [still] = judge({ motors: [{ ...pump, outcome: "stalled", runUp_s: null }] });
    expect(still).toMatchObject({ outcome: "fail", gravity: "danger" });
    expect(still.change).toMatch(/Switch it off within 5 s/);
  });

  it("say what became of a contactor", () => {
    const says = (told: Partial<ContactorResult>): string =>
      judge({ contactors: [{ ...good, ...told }] })[0].says;
    expect(says({})).toBe("contactor: stays in, its 120 V coil falls to 110 V.");
    expect(says({ dropOuts: 1, lowestCoil_V: 60 })).toBe(
      "contactor: drops out once, its 120 V coil falls to 60 V.",
    );
    expect(says({ dropOuts: 7 })).toContain("drops out 7 times");
    expect(says({ closed_s: null, lowestCoil_V: 90 })).toBe(
      "contactor: never pulls in, its 120 V coil falls to 90 V and needs 96 V.",
    );
    expect(says({ closed_s: null, lowestCoil_V: null })).toContain("gets no voltage");
    expect(says({ closed_s: null })).toContain("is not called");
  });
});
