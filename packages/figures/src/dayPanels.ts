/** What the panels of a day show: which curves, in which style, under which heading. */

import type { DayColumn, DayReport } from "@startgap/study";

export interface DayCurve {
  readonly name: string;
  readonly time_s: Float64Array;
  readonly values: Float64Array;
  /** Which style; parts keep theirs from panel to panel. Null: faint. */
  readonly style: number | null;
  /** A curve, spans where the value is 1, or a line up to the value at every time. */
  readonly as: "curve" | "spans" | "stems";
}

export interface DayPanel {
  readonly heading: string;
  readonly curves: readonly DayCurve[];
  readonly domain: readonly [number, number];
  /** Share of the free height; a row's for a panel of spans. */
  readonly share: number;
}

/** The panels that a report has something for, from top to bottom. */
export function dayPanels(report: DayReport): DayPanel[] {
  const panels = [...pressures(report), running(report), temperatures(report), fuses(report)];
  return panels.filter(({ curves }) => curves.length > 0);
}

const columnsOf = ({ traces }: DayReport, quantity: DayColumn["quantity"]): DayColumn[] =>
  traces.columns.filter((c) => c.quantity === quantity);

function curvesOf(
  report: DayReport,
  quantity: DayColumn["quantity"],
  first: number | null,
  nameOf: (part: string) => string = (part) => part,
): DayCurve[] {
  const { time_s } = report.traces;
  return columnsOf(report, quantity).map(({ part, values }, k) => ({
    ...{ name: nameOf(part), time_s, values, as: "curve" },
    style: first === null ? null : first + k,
  }));
}

/** Lowest and highest of all curves, a little apart where they are one. */
function rangeOf(curves: readonly DayCurve[]): [number, number] {
  let [low, high] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (const { values } of curves)
    for (const value of values) {
      low = Math.min(low, value);
      high = Math.max(high, value);
    }
  if (!(high > Number.NEGATIVE_INFINITY)) return [0, 1];
  return high - low < 1 ? [low - 0.5, high + 0.5] : [low, high];
}

/** Receivers that cycle cross each other all day: each has a panel of its own, while they are few. */
const MOST_ALONE = 3;

function pressures(report: DayReport): DayPanel[] {
  const curves = curvesOf(report, "pressure", 0);
  const heading = "Pressure, kPa";
  const domain = rangeOf(curves);
  if (curves.length > MOST_ALONE) return [{ heading, curves, domain, share: 1 }];
  return curves.map((curve) => ({ heading, curves: [curve], domain, share: 0.6 }));
}

function running(report: DayReport): DayPanel {
  const curves = curvesOf(report, "running", 0).map((curve): DayCurve => ({ ...curve, as: "spans" }));
  return { heading: "Running", curves, domain: [0, Math.max(1, curves.length)], share: 0.22 * curves.length };
}

function temperatures(report: DayReport): DayPanel {
  const wound = report.transformers.map(({ part }) => part);
  const windings = curvesOf(report, "winding temperature", 0);
  const curves = [
    ...curvesOf(report, "temperature outside", null, () => "air outside"),
    ...windings.filter(({ name }) => !wound.includes(name)),
    ...windings.filter(({ name }) => wound.includes(name)),
    ...curvesOf(report, "temperature", windings.length, () => "air in the box"),
  ];
  return { heading: "Temperature, degC", curves, domain: rangeOf(curves), share: 2 };
}

const PERCENT = 100;

function fuses(report: DayReport): DayPanel {
  const { time_s, melt } = report.starts;
  const percent = (values: Float64Array): Float64Array => values.map((value) => PERCENT * value);
  const judged = report.fuses.map(({ part }) => part);
  const stems = melt
    .filter(({ part }) => judged.includes(part))
    .map(
      ({ part, values }, k): DayCurve => ({
        ...{ name: `${part}, way to melting`, time_s, values: percent(values) },
        ...{ style: k, as: "stems" },
      }),
    );
  const currents = curvesOf(report, "melting current", stems.length)
    .filter(({ name }) => judged.includes(name))
    .map(({ name, values, ...rest }) => ({
      ...rest,
      name: `${name}, melting current`,
      values: percent(values),
    }));
  const curves = [...stems, ...currents];
  return { heading: "Fuse, %", curves, domain: [0, Math.max(PERCENT, rangeOf(curves)[1])], share: 1.3 };
}
