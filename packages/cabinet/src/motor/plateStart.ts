import type { Issue } from "../issue.ts";
import { codeLetterOf, codeLetterRange, type KvaPerHp, middleOf, usualCodeLetter } from "./codeLetter.ts";
import type { MotorType, Nameplate } from "./nameplate.ts";
import { assume, NO_SOURCE, type Notebook, percent, rangeText, text } from "./notebook.ts";
import { isMissing } from "./plateIssues.ts";
import type { Rating } from "./plateRating.ts";
import { HORSEPOWER_W } from "./standardPowers.ts";
import { USUAL_BREAKDOWN_TORQUE, USUAL_LOCKED_ROTOR_TORQUE, type Usual } from "./usualValues.ts";

/** Locked-rotor over full-load current, beyond which a figure has been misread. Common practice, no source. */
const LEAST_RATIO = 1.5;
const MOST_RATIO = 12;

/** A permanent capacitor is too small to help at standstill: such motors draw less there. Common practice, no source. */
const LESS_WITH_PERMANENT_CAPACITOR = 0.65;

/** Locked-rotor current of the whole motor at rated voltage: stated, else by code letter, else the usual letter. */
export function lockedRotorCurrentOf(
  plate: Nameplate,
  type: MotorType,
  rating: Rating,
  notes: Notebook,
): number | Issue {
  const ampsAt = (kvaPerHp: number): number =>
    (1000 * kvaPerHp * (rating.power_W / HORSEPOWER_W)) / plate.voltage_V;
  const stated = plate.lockedRotorCurrent_A;
  const current = stated ?? ampsAt(tableKva(plate, type, rating, ampsAt, notes));
  const ratio = current / rating.current_A;
  if (ratio < LEAST_RATIO || ratio > MOST_RATIO) return ratioIssue(plate, current, rating);
  if (!isMissing(stated) && !isMissing(plate.codeLetter)) compareLetter(stated, plate, ampsAt(1), notes);
  return current;
}

function tableKva(
  plate: Nameplate,
  type: MotorType,
  rating: Rating,
  ampsAt: (kvaPerHp: number) => number,
  notes: Notebook,
): number {
  const letter = plate.codeLetter ?? usualCodeLetter(rating.power_W / HORSEPOWER_W);
  const range = codeLetterRange(letter)!;
  const stated = !isMissing(plate.codeLetter);
  const less = !stated && type === "permanent-split-capacitor" ? LESS_WITH_PERMANENT_CAPACITOR : 1;
  const kva = middleOf(range) * less;
  const { low, high } = plausible(range, stated);
  const basis = stated
    ? `code letter ${letter.toUpperCase()}, NEMA MG 1 10.37.2, middle of its range`
    : `usual code letter ${letter} for the power${less < 1 ? `, less a third for a permanent capacitor; ${NO_SOURCE}` : ", handbook table beside NEMA MG 1 10.37.2"}`;
  const amperes = rangeText(ampsAt(low * less), ampsAt(high * less), "A");
  assume(notes, "locked-rotor current", text(ampsAt(kva), "A"), amperes, basis, stated ? "table" : "assumed");
  return kva;
}

/** A letter's own range; one that is only usual may be two letters off: a quarter either way. */
function plausible(range: KvaPerHp, stated: boolean): KvaPerHp {
  const middle = middleOf(range);
  if (!stated) return { low: 0.75 * middle, high: 1.3 * middle };
  return { low: Math.max(range.low, 0.8 * middle), high: Math.min(range.high, 1.2 * middle) };
}

function compareLetter(stated_A: number, plate: Nameplate, ampsPerKva: number, notes: Notebook): void {
  const { low, high } = codeLetterRange(plate.codeLetter!)!;
  const kva = stated_A / ampsPerKva;
  if (kva >= 0.98 * low && kva < 1.02 * high) return;
  notes.contradictions.push(
    `${text(stated_A, "A")} at locked rotor is ${text(kva, "kVA/hp")}, code letter ${codeLetterOf(kva)}; the plate ` +
      `says ${plate.codeLetter!.toUpperCase()} (${rangeText(low, high, "")}). Believed the amperes.`,
  );
}

function ratioIssue(plate: Nameplate, current: number, rating: Rating): Issue {
  const key = isMissing(plate.lockedRotorCurrent_A) ? "codeLetter" : "lockedRotorCurrent";
  const [low, high] = [LEAST_RATIO * rating.current_A, MOST_RATIO * rating.current_A];
  return {
    path: `nameplate.${isMissing(plate.lockedRotorCurrent_A) && isMissing(plate.codeLetter) ? "fullLoadCurrent" : key}`,
    expected: `a locked-rotor current 1.5 to 12 times full load (${rangeText(low, high, "A")})`,
    received: `${text(current, "A")} against ${text(rating.current_A, "A")} at full load`,
  };
}

/** One of the two torques the fit is to meet, and how far it may be off where it is only usual. */
export interface TorqueTarget {
  readonly value_Nm: number;
  /** Null where it is stated: then the plate's figure is to be met. */
  readonly plausible_Nm: { readonly low: number; readonly high: number } | null;
}

interface Kind {
  readonly key: "lockedRotorTorque_Nm" | "breakdownTorque_Nm";
  readonly name: string;
  readonly what: string;
  readonly least: number;
  readonly most: number;
}

const LOCKED: Kind = {
  key: "lockedRotorTorque_Nm",
  name: "lockedRotorTorque",
  what: "locked-rotor torque",
  least: 0.1,
  most: 6,
};
const CREST: Kind = {
  key: "breakdownTorque_Nm",
  name: "breakdownTorque",
  what: "breakdown torque",
  least: 1.1,
  most: 5,
};

function torqueTarget(kind: Kind, usual: Usual, plate: Nameplate, rated_Nm: number): TorqueTarget | Issue {
  const stated = plate[kind.key];
  if (isMissing(stated)) {
    const plausible_Nm = { low: usual.low * rated_Nm, high: usual.high * rated_Nm };
    return { value_Nm: usual.value * rated_Nm, plausible_Nm };
  }
  const ratio = stated / rated_Nm;
  if (ratio >= kind.least && ratio <= kind.most) return { value_Nm: stated, plausible_Nm: null };
  return {
    path: `nameplate.${kind.name}`,
    expected: `a ${kind.what} ${percent(kind.least)} to ${percent(kind.most)} of full-load torque (${text(rated_Nm, "N m")})`,
    received: text(stated, "N m"),
  };
}

export const lockedRotorTorqueOf = (
  plate: Nameplate,
  type: MotorType,
  rated_Nm: number,
): TorqueTarget | Issue => torqueTarget(LOCKED, USUAL_LOCKED_ROTOR_TORQUE[type], plate, rated_Nm);

export const breakdownTorqueOf = (
  plate: Nameplate,
  type: MotorType,
  rated_Nm: number,
): TorqueTarget | Issue => torqueTarget(CREST, USUAL_BREAKDOWN_TORQUE[type], plate, rated_Nm);
