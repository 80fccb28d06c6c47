import { describe, expect, it } from "vitest";
import {
  FIGURES,
  type FigureName,
  machineOf,
  machineOfWindings,
  type PrintedMachine,
  type PrintedWindings,
  pointOf,
} from "./machines.ts";

/** One figure: as printed, and as the same circuit gives it when worked without rounding. */
interface Figure {
  readonly printed?: number;
  /** Relative, or degrees for an angle; the check's own when silent. */
  readonly tolerance?: number;
  /** Worked out again from the stated inputs, independently of this code. */
  readonly exact?: number;
  readonly exactTolerance?: number;
  /** Why the print is known to be wrong: then it must be off, and `exact` holds. */
  readonly wrong?: string;
}

interface Check {
  readonly example: string;
  /** "read", "from memory" or "not printed". */
  readonly status: string;
  readonly machine?: string;
  readonly windings?: PrintedWindings;
  readonly voltage_V: number;
  readonly slip?: number;
  readonly switchClosed?: boolean;
  readonly tolerance: number;
  readonly figures: Readonly<Partial<Record<FigureName, Figure>>>;
}

interface Book {
  readonly source: string;
  readonly machines?: Readonly<Record<string, PrintedMachine>>;
  readonly checks: readonly Check[];
}

/** Printed to four digits as a rule. */
const EXACT = 5e-4;
const EXACT_DEGREES = 0.02;

const isAngle = (name: string): boolean => name.endsWith("_deg");

/** Deviation over tolerance: up to 1 is within. */
const off = (name: string, got: number, want: number, tolerance: number): number =>
  isAngle(name) ? Math.abs(got - want) / tolerance : Math.abs(got / want - 1) / tolerance;

const pointFor = (book: Book, check: Check) => {
  const { machine, windings, voltage_V, slip = 1, switchClosed = true } = check;
  if (windings !== undefined) return pointOf(machineOfWindings(windings), voltage_V, 1, true);
  return pointOf(machineOf(book.machines![machine!], slip), voltage_V, slip, switchClosed);
};

/** Holds `steadyState` against every figure of one book's data.json (which is a `Book`). */
export function checkBook(data: unknown): void {
  const book = data as Book;
  describe(book.source, () => {
    it("names only figures that are known, and at least one a check", () => {
      const names = book.checks.map(({ figures }) => Object.keys(figures));
      expect(names.flat().filter((name) => !(name in FIGURES))).toEqual([]);
      expect(names.every((list) => list.length > 0)).toBe(true);
    });
    for (const check of book.checks) {
      const memory = check.status === "from memory" ? " (from memory)" : "";
      const what = `${check.example}${memory}`;
      const point = pointFor(book, check);
      for (const [name, figure] of Object.entries(check.figures) as [FigureName, Figure][]) {
        checkFigure(what, name, FIGURES[name](point), figure, check.tolerance);
      }
    }
  });
}

function checkFigure(what: string, name: string, got: number, figure: Figure, tolerance: number): void {
  const { printed, exact, wrong } = figure;
  if (printed !== undefined) {
    const within = figure.tolerance ?? (isAngle(name) ? 0.5 : tolerance);
    const says = wrong === undefined ? "published" : `printed wrong: ${wrong}`;
    it(`${what}: ${name} ${printed} (${says}, ${isAngle(name) ? `${within} deg` : `${100 * within} %`})`, () => {
      if (wrong === undefined) expect(off(name, got, printed, within), `got ${got}`).toBeLessThanOrEqual(1);
      else expect(off(name, got, printed, within), `got ${got}`).toBeGreaterThan(1);
    });
  }
  if (exact !== undefined) {
    const within = figure.exactTolerance ?? (isAngle(name) ? EXACT_DEGREES : EXACT);
    it(`${what}: ${name} ${exact} worked without rounding (independent code, ${within})`, () => {
      expect(off(name, got, exact, within), `got ${got}`).toBeLessThanOrEqual(1);
    });
  }
}
