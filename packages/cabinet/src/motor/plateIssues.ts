import type { Issue } from "../issue.ts";
import { nearestName } from "../nearest.ts";
import { CODE_LETTERS, codeLetterRange } from "./codeLetter.ts";
import { MOTOR_TYPES, type Nameplate } from "./nameplate.ts";

interface Bound {
  readonly key: keyof Nameplate;
  /** As a cabinet file calls it. */
  readonly name: string;
  readonly a: string;
  readonly unit: string;
  readonly from: number;
  readonly to: number;
}

const bound = (
  key: keyof Nameplate,
  name: string,
  a: string,
  unit: string,
  from: number,
  to: number,
): Bound => ({
  key,
  name,
  a,
  unit,
  from,
  to,
});

const BOUNDS: readonly Bound[] = [
  bound("voltage_V", "voltage", "a voltage", " V", 20, 700),
  bound("frequency_Hz", "frequency", "a frequency", " Hz", 40, 70),
  bound("power_W", "power", "a power", " W", 10, 15000),
  bound("fullLoadCurrent_A", "fullLoadCurrent", "a current", " A", 0.05, 300),
  bound("speed_rpm", "speed", "a speed", " rpm", 200, 4200),
  bound("lockedRotorCurrent_A", "lockedRotorCurrent", "a current", " A", 0.1, 3000),
  bound("serviceFactor", "serviceFactor", "a service factor", "", 0.8, 2),
  bound("startCapacitor_F", "startCapacitor", "a capacitance", " F", 1e-6, 5e-3),
  bound("runCapacitor_F", "runCapacitor", "a capacitance", " F", 1e-7, 1e-3),
  bound("lockedRotorTorque_Nm", "lockedRotorTorque", "a torque", " N m", 1e-3, 1000),
  bound("breakdownTorque_Nm", "breakdownTorque", "a torque", " N m", 1e-3, 1000),
  bound("powerFactor", "powerFactor", "a power factor", "", 0.2, 1),
  bound("efficiency", "efficiency", "an efficiency", "", 0.1, 0.95),
  bound("inertia_kgm2", "inertia", "an inertia", " kg m2", 1e-6, 100),
];

const REQUIRED: readonly (keyof Nameplate)[] = ["voltage_V", "frequency_Hz"];

/** What no plate can say, each figure by itself: paths begin with "nameplate.". */
export function plateIssues(plate: Nameplate): Issue[] {
  const issues = BOUNDS.flatMap((b) => boundIssue(b, plate[b.key]));
  if (isMissing(plate.power_W) && isMissing(plate.fullLoadCurrent_A)) {
    const expected = `"power" or "fullLoadCurrent", for one of them must be known`;
    issues.push({ path: "nameplate", expected, received: "neither" });
  }
  return [...issues, ...nameIssue("type", plate.type, MOTOR_TYPES), ...letterIssue(plate.codeLetter)];
}

export const isMissing = (value: unknown): value is null | undefined => value === null || value === undefined;

function boundIssue({ key, name, a, unit, from, to }: Bound, value: unknown): Issue[] {
  if (isMissing(value) && !REQUIRED.includes(key)) return [];
  if (typeof value === "number" && value >= from && value <= to) return [];
  const expected = `${a} from ${from}${unit} to ${to}${unit}`;
  return [
    { path: `nameplate.${name}`, expected, received: isMissing(value) ? "nothing" : `${value}${unit}` },
  ];
}

function nameIssue(key: string, value: unknown, known: readonly string[]): Issue[] {
  if (isMissing(value) || known.includes(value as string)) return [];
  const nearest = nearestName(String(value), known);
  const issue = { path: `nameplate.${key}`, expected: known.join(", "), received: `${value}`.slice(0, 80) };
  return [nearest === undefined ? issue : { ...issue, nearest }];
}

function letterIssue(letter: string | null | undefined): Issue[] {
  if (isMissing(letter) || (typeof letter === "string" && codeLetterRange(letter) !== undefined)) return [];
  const expected = `a code letter, one of ${CODE_LETTERS.join(" ")} (there is no I, O or Q)`;
  return [{ path: "nameplate.codeLetter", expected, received: `${letter}`.slice(0, 80) }];
}
