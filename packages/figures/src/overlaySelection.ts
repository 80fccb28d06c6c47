/** What an overlay shows of a check: which column of every story stands in which panel. */

import type { CaseName, Check, Quantity, Column as Recorded, Story } from "@startgap/study";
import { max } from "d3";
import type { Column } from "./polyline.ts";

export interface Selection {
  /** Part whose voltage is drawn; default: the point that fell furthest in any case. */
  readonly point?: string;
  /** Part whose current is drawn; default: the fuse of the melt panel, else the first part with a current. */
  readonly line?: string;
  /** Fuse whose melt fraction is drawn; default: the one that came furthest in any case. */
  readonly fuse?: string;
  /** Motors whose speeds are drawn; default: the first six that turn. */
  readonly motors?: readonly string[];
}

/** One column of one story. */
export interface Curve extends Column {
  readonly case: CaseName;
  readonly part: string;
}

export interface Content {
  readonly quantity: Quantity;
  /** The part drawn; null where several are. */
  readonly part: string | null;
  /** Nominal voltage; null elsewhere. */
  readonly nominal_V: number | null;
  /** In the order in which they are drawn: the staggered case last, on top. */
  readonly curves: readonly Curve[];
  /** Values besides the curves that must find room: readings taken on site. */
  readonly also: readonly number[];
}

export const caseOrder: readonly CaseName[] = ["one", "together", "staggered"];
const mostMotors = 6;

/** Contents of the panels, top to bottom; panels with nothing to show are left out. */
export function contentsOf(check: Check, selection: Selection): Content[] {
  const stories = caseOrder.flatMap((name) => check.stories.filter((story) => story.case === name));
  const fuse = selection.fuse ?? furthestFuse(stories);
  const contents = [
    single(stories, "voltage", selection.point ?? worstPoint(check)),
    single(stories, "current", selection.line ?? lineOf(stories, fuse)),
    speeds(stories, selection.motors),
    single(stories, "melt fraction", fuse),
  ];
  return contents.filter((content) => content.curves.length > 0);
}

function columnsOf(story: Story, quantity: Quantity): readonly Recorded[] {
  return story.traces.columns.filter((column) => column.quantity === quantity);
}

function single(stories: readonly Story[], quantity: Quantity, part: string | null): Content {
  const found = stories.flatMap((story) =>
    columnsOf(story, quantity)
      .filter((column) => column.part === part)
      .map((column) => ({ story, column })),
  );
  const curves = found.map(({ story, column }) => curveOf(story, column));
  return { quantity, part, nominal_V: found.length > 0 ? found[0].column.nominal : null, curves, also: [] };
}

function curveOf(story: Story, column: Recorded): Curve {
  const first = column.quantity === "voltage" ? firstLive(column.values) : 0;
  return { case: story.case, part: column.part, time_s: story.traces.time_s, values: column.values, first };
}

/** The terminals of a motor are dead until it is connected: that is no sag, so the curve begins there. */
function firstLive(values: Float64Array): number {
  const first = values.findIndex((value) => value > 1);
  return first === -1 ? values.length : first;
}

function speeds(stories: readonly Story[], motors: readonly string[] | undefined): Content {
  const turning = stories.flatMap((story) =>
    columnsOf(story, "speed")
      .filter(({ values }) => values.some((value) => Math.abs(value) > 1))
      .map((column) => curveOf(story, column)),
  );
  const names = motors ?? [...new Set(turning.map(({ part }) => part))].slice(0, mostMotors);
  const curves = turning.filter(({ part }) => names.includes(part));
  return { quantity: "speed", part: null, nominal_V: null, curves, also: [] };
}

/** The point that fell furthest below its nominal voltage in any case; without a report, the first there is. */
function worstPoint(check: Check): string | null {
  const worst = check.report.cases.flatMap((report) => report.worst ?? []);
  worst.sort((a, b) => a.voltage_V / a.nominal_V - b.voltage_V / b.nominal_V);
  const points = check.stories.flatMap((story) => columnsOf(story, "voltage"));
  const known = worst.find(({ point }) => points.some(({ part }) => part === point));
  return known?.point ?? points.find(({ nominal }) => nominal !== null)?.part ?? points[0]?.part ?? null;
}

function furthestFuse(stories: readonly Story[]): string | null {
  const fuses = stories.flatMap((story) => columnsOf(story, "melt fraction"));
  const reached = (column: Recorded) => max(column.values) ?? 0;
  return fuses.length === 0 ? null : fuses.reduce((a, b) => (reached(b) > reached(a) ? b : a)).part;
}

function lineOf(stories: readonly Story[], fuse: string | null): string | null {
  const currents = stories.flatMap((story) => columnsOf(story, "current"));
  return (currents.find(({ part }) => part === fuse) ?? currents[0])?.part ?? null;
}
