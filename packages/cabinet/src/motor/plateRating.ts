import type { Issue } from "../issue.ts";
import { usualFullLoadCurrent_A } from "./currentTables.ts";
import type { MotorType, Nameplate } from "./nameplate.ts";
import { assume, NO_SOURCE, type Notebook, percent, rangeText, text } from "./notebook.ts";
import { isMissing } from "./plateIssues.ts";
import { HORSEPOWER_W } from "./standardPowers.ts";
import {
  hasRunCapacitor,
  LEAST_WATTS_PER_VOLT_AMPERE,
  mostWattsPerVoltAmpere,
  usualEfficiency,
  usualPowerFactor,
} from "./usualValues.ts";

export interface Rating {
  readonly power_W: number;
  readonly current_A: number;
  /** Share of the input at full load; the power factor follows from it, volts, amperes and power. */
  readonly efficiency: number;
  /** Whether it follows from the plate, by its efficiency or its power factor. */
  readonly efficiencyStated: boolean;
}

/** Times the table's current, which itself runs high. Common practice, no source. */
const MUCH_CURRENT = 1.5;

const powerText = (power_W: number): string =>
  `${text(power_W, "W")} (${text(power_W / HORSEPOWER_W, "hp")})`;

/** Power, current and efficiency at full load that agree with each other. */
export function ratingOf(plate: Nameplate, type: MotorType, notes: Notebook): Rating | Issue {
  const current_A = plate.fullLoadCurrent_A ?? currentFor(plate.power_W!, plate, type, notes);
  const voltAmperes = plate.voltage_V * current_A;
  const power_W = powerOf(plate, type, voltAmperes, notes);
  const watts = power_W / voltAmperes;
  if (watts < LEAST_WATTS_PER_VOLT_AMPERE) return currentIssue(plate, type, power_W);
  if (!isMissing(plate.power_W)) compareCurrent(plate, power_W, current_A, notes);
  const stated = statedEfficiency(plate, watts, notes);
  const efficiency = stated ?? usualSplit(type, power_W, watts, notes);
  return { power_W, current_A, efficiency, efficiencyStated: stated !== null };
}

function currentFor(power_W: number, plate: Nameplate, type: MotorType, notes: Notebook): number {
  const table = usualFullLoadCurrent_A(power_W / HORSEPOWER_W, plate.voltage_V);
  const product = usualEfficiency(power_W).value * usualPowerFactor(type).value;
  const worked = power_W / plate.voltage_V / product;
  const current = hasRunCapacitor(type) ? worked : table;
  const basis = hasRunCapacitor(type)
    ? `usual efficiency and power factor with a run capacitor, ${NO_SOURCE}`
    : "NEC Table 430.248, which runs high";
  const range = rangeText(0.75 * current, 1.1 * current, "A");
  assume(
    notes,
    "full-load current",
    text(current, "A"),
    range,
    basis,
    hasRunCapacitor(type) ? "assumed" : "table",
  );
  return current;
}

/** Usual shaft watts of so many volt-amperes; efficiency goes with power, so a few rounds. */
function usualPower(voltAmperes: number, type: MotorType): number {
  const factor = usualPowerFactor(type).value;
  let power = 0.5 * voltAmperes;
  for (let round = 0; round < 5; round++) power = voltAmperes * factor * usualEfficiency(power).value;
  return power;
}

function powerOf(plate: Nameplate, type: MotorType, voltAmperes: number, notes: Notebook): number {
  const stated = plate.power_W;
  if (!isMissing(stated) && stated <= mostWattsPerVoltAmpere(type) * voltAmperes) return stated;
  const power = usualPower(voltAmperes, type);
  const range = rangeText(0.8 * power, 1.2 * power, "W");
  const basis = `volts x amperes x usual power factor and efficiency, ${NO_SOURCE}`;
  assume(notes, "rated power", powerText(power), range, basis);
  if (!isMissing(stated)) {
    notes.contradictions.push(
      `The plate says ${powerText(stated)}, but its volts x amperes are ${text(voltAmperes, "VA")}: that would be ` +
        `${percent(stated / voltAmperes)} of what goes in. Believed the amperes: about ${powerText(power)}.`,
    );
  }
  return power;
}

/** Far more than the table: on a dual-voltage plate the current of the lower voltage is easily read. */
function compareCurrent(plate: Nameplate, power_W: number, current_A: number, notes: Notebook): void {
  const usual = usualFullLoadCurrent_A(power_W / HORSEPOWER_W, plate.voltage_V);
  if (current_A < MUCH_CURRENT * usual) return;
  notes.contradictions.push(
    `${text(current_A, "A")} is ${text(current_A / usual, "")} times the ${text(usual, "A")} of NEC Table 430.248 for ` +
      `${powerText(power_W)} at ${text(plate.voltage_V, "V")}: is it the current of the other voltage? Believed the amperes.`,
  );
}

function currentIssue(plate: Nameplate, type: MotorType, power_W: number): Issue {
  const usual = usualFullLoadCurrent_A(power_W / HORSEPOWER_W, plate.voltage_V);
  return {
    path: "nameplate.fullLoadCurrent",
    expected: `a full-load current for ${powerText(power_W)} at ${text(plate.voltage_V, "V")}, as ${text(usual, "A")} (${type})`,
    received: text(plate.fullLoadCurrent_A!, "A"),
  };
}

/** No small motor does better. Common practice, no source. */
const MOST_EFFICIENCY = 0.93;

/**
 * Efficiency such that efficiency x power factor = watts per volt-ampere: a stated power factor settles it,
 * then a stated efficiency; null when neither is stated or can be true.
 */
function statedEfficiency(plate: Nameplate, watts: number, notes: Notebook): number | null {
  const { powerFactor, efficiency } = plate;
  const byFactor = isMissing(powerFactor) ? null : watts / powerFactor;
  const factorHolds = byFactor !== null && byFactor <= MOST_EFFICIENCY;
  const efficiencyHolds = !isMissing(efficiency) && watts <= efficiency;
  if (byFactor !== null && !factorHolds) disbelieve(notes, "power factor", powerFactor!, watts);
  if (!isMissing(efficiency) && !efficiencyHolds) disbelieve(notes, "efficiency", efficiency, watts);
  if (!factorHolds) return efficiencyHolds ? efficiency : null;
  if (efficiencyHolds && Math.abs(efficiency / byFactor - 1) > 0.06) {
    notes.contradictions.push(
      `Power, volts, amperes and power factor give an efficiency of ${percent(byFactor)}, the plate ` +
        `${percent(efficiency)}. Believed the first.`,
    );
  }
  return byFactor;
}

function disbelieve({ contradictions }: Notebook, what: string, value: number, watts: number): void {
  contradictions.push(
    `A ${what} of ${text(value, "")} does not go with power, volts and amperes, by which efficiency x power ` +
      `factor is ${text(watts, "")}. Not believed.`,
  );
}

/** Neither stated: both are moved from their usual values by the same factor. */
function usualSplit(type: MotorType, power_W: number, watts: number, notes: Notebook): number {
  const usual = usualEfficiency(power_W);
  const factor = usualPowerFactor(type).value;
  const efficiency = Math.max(
    watts,
    Math.min(MOST_EFFICIENCY, usual.value * Math.sqrt(watts / (usual.value * factor))),
  );
  const range = `${percent(Math.max(watts, efficiency - 0.08))} to ${percent(Math.min(MOST_EFFICIENCY, efficiency + 0.08))}`;
  const basis = `usual efficiency and power factor, moved together to suit power and amperes; ${NO_SOURCE}`;
  const value = `${percent(efficiency)}, power factor ${text(watts / efficiency, "")}`;
  assume(notes, "full-load efficiency", value, range, basis);
  return efficiency;
}
