import { describe, expect, it } from "vitest";
import { agreed } from "../src/agreed.ts";
import { byDanger, deciding, gravest, gravestOf, onceEach, unheld } from "../src/order.ts";
import { worth } from "../src/remedies.ts";
import type { CheckReport, Finding, FindingGravity, Verdict } from "../src/results.ts";

/** A judged question whose name says what it is. */
const finding = (
  outcome: Verdict,
  gravity: FindingGravity,
  part = "a",
  of: Finding["case"] = "staggered",
): Finding => ({
  finding: `${outcome}, ${gravity}`,
  part,
  case: of,
  outcome,
  gravity,
  value: 1,
  limit: 1,
  unit: "",
  basis: "invented",
  says: `${part}: ${outcome}.`,
  change: outcome === "pass" ? null : "Change it.",
});

const report = (findings: readonly Finding[], held = true): CheckReport => ({
  startgap: "check 1",
  title: "invented",
  cases: held ? [{ case: "staggered" } as CheckReport["cases"][number]] : [],
  delay: { recommended_s: null, shortest_s: null, knee_s: null, reason: "" },
  findings,
});

const names = (findings: readonly Finding[]): string[] => findings.map((f) => f.finding);

describe("the order of findings", () => {
  it("is danger first, then what stops the work, then the rest; failing before doubt; what passes last", () => {
    const every = (["note", "stops work", "danger"] as const).flatMap((gravity) =>
      (["pass", "caution", "fail"] as const).map((outcome) => finding(outcome, gravity)),
    );
    expect(names(byDanger(every))).toEqual([
      "fail, danger",
      "caution, danger",
      "fail, stops work",
      "caution, stops work",
      "fail, note",
      "caution, note",
      "pass, danger",
      "pass, stops work",
      "pass, note",
    ]);
  });

  it("keeps equals as they come, and leaves what it was given alone", () => {
    const given = ["b", "a", "c"].map((part) => finding("fail", "danger", part));
    expect(byDanger(given)).toEqual(given);
    const mixed = [finding("pass", "danger"), finding("fail", "danger")];
    byDanger(mixed);
    expect(names(mixed)).toEqual(["pass, danger", "fail, danger"]);
  });

  it("takes the gravest case of a question, and of equals the way the cabinet is run", () => {
    const asked = (outcome: Verdict, of: Finding["case"]): Finding => ({
      ...finding(outcome, "danger", "a", of),
      finding: "sag",
    });
    expect(onceEach([asked("caution", "one"), asked("fail", "staggered")])).toMatchObject([
      { outcome: "fail" },
    ]);
    expect(onceEach([asked("fail", "one"), asked("fail", "staggered")])).toMatchObject([
      { case: "staggered" },
    ]);
  });

  it("says a failure before a more dangerous doubt, and nothing of what passes", () => {
    const stops = finding("fail", "stops work");
    expect(gravest(report([finding("caution", "danger"), stops]))).toBe(stops);
    expect(gravest(report([finding("pass", "danger")]))).toBeNull();
    expect(gravestOf([])).toBeNull();
  });

  it("keeps all at once apart where something is held back", () => {
    const both = [finding("fail", "danger", "a", "together"), finding("pass", "note")];
    expect(deciding(report(both))).toEqual([both[1]]);
    expect(unheld(report(both))).toEqual([both[0]]);
    expect(deciding(report(both, false))).toEqual(both);
  });
});

describe("what to change", () => {
  it("is a sentence for everything that does not pass, and nothing for what does", () => {
    expect(worth("fuse holds", "fail")).toMatchObject({ gravity: "stops work", outcome: "fail" });
    expect(worth("contacts weld", "caution").gravity).toBe("danger");
    expect(worth("fuse holds", "caution").change).toMatch(/^[A-Z].*\.$/);
    expect(worth("fuse holds", "pass").change).toBeNull();
    expect(() => worth("fuse holds?", "pass")).toThrow('invalid question: "fuse holds?"');
  });

  it("is there too where two tolerances do not agree, whichever of them passes", () => {
    const [fails, passes] = [
      finding("fail", "danger"),
      { ...finding("pass", "danger"), finding: "fail, danger" },
    ];
    for (const [one, other] of [
      [fails, passes],
      [passes, fails],
    ])
      expect(agreed([one], [other])).toMatchObject([{ outcome: "caution", change: "Change it." }]);
    expect(agreed([fails], [fails])).toEqual([fails]);
  });
});
