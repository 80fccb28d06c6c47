/** What a delay map shows: one panel a quantity, its worst parts named, the rest faint. */

import type { DelayMap } from "@startgap/study";
import type { Series } from "./series.ts";

export interface MapPanel {
  readonly quantity: "voltage" | "melt" | "runUp";
  readonly heading: string;
  readonly series: readonly Series[];
  /** Parts that are drawn but have no room for a name. */
  readonly faint: readonly Series[];
}

const mostNamed = 7;

/** Nominal voltage of every motor that has one, by name. */
export type Nominals = Readonly<Record<string, number>>;

export function mapPanels(map: DelayMap, nominals: Nominals): MapPanel[] {
  const panels: MapPanel[] = [
    panelOf("voltage", "Lowest voltage, % of nominal", voltages(map, nominals), 1),
    panelOf("melt", "How far the fuses come to melting, %", melts(map), -1),
    panelOf("runUp", "Run-up, s", runUps(map), -1),
  ];
  return panels.filter(({ series }) => series.length > 0);
}

/** Name the parts that come off worst; sign 1 when low is bad. */
function panelOf(
  quantity: MapPanel["quantity"],
  heading: string,
  all: readonly Series[],
  sign: number,
): MapPanel {
  const worst = ({ values }: Series) =>
    Math.min(...values.flatMap((value) => (value === null ? [] : sign * value)));
  const drawn = all.filter(({ values }) => values.some((value) => value !== null));
  const ranked = [...drawn].sort((a, b) => worst(a) - worst(b));
  const named = new Set(ranked.slice(0, mostNamed));
  return {
    quantity,
    heading,
    series: drawn.filter((series) => named.has(series)),
    faint: drawn.filter((series) => !named.has(series)),
  };
}

/** Motors whose nominal voltage is not known cannot be shown in percent and are left out. */
function voltages(map: DelayMap, nominals: Nominals): Series[] {
  const motors = map.motors.flatMap(({ part, lowestVoltage_V }, style) => {
    const nominal = Object.hasOwn(nominals, part) ? nominals[part] : undefined;
    return nominal === undefined ? [] : [{ name: part, style, values: percentOf(lowestVoltage_V, nominal) }];
  });
  const points = map.points.map(({ part, nominal_V, lowestVoltage_V }, i) => ({
    name: part,
    style: map.motors.length + i,
    values: percentOf(lowestVoltage_V, nominal_V),
  }));
  const shown = new Set(motors.map(({ name }) => name));
  return [...motors, ...points.filter(({ name }) => !shown.has(name))];
}

function percentOf(values: readonly (number | null)[], nominal_V: number): (number | null)[] {
  return values.map((value) => (value === null ? null : (100 * value) / nominal_V));
}

function melts(map: DelayMap): Series[] {
  const before = map.motors.length + map.points.length;
  return map.fuses.map(({ part, meltFraction }, i) => ({
    name: part,
    style: before + i,
    values: meltFraction.map((fraction) => 100 * fraction),
  }));
}

function runUps(map: DelayMap): Series[] {
  return map.motors.map(({ part, runUp_s }, style) => ({ name: part, style, values: runUp_s }));
}
