import type { Excitation } from "@startgap/circuit";
import { shown, shownRange } from "../cable/check.ts";
import type { Assumption } from "../grade.ts";
import { excitingPower_VA } from "./checkSpec.ts";
import { EXCITING_PERCENT, smallUnit } from "./smallUnits.ts";
import { inputVoltage_V, type TestReading, type TransformerSpec } from "./spec.ts";

const none: Excitation = { conductance_S: 0, susceptance_S: 0 };

export interface ExcitationFound {
  readonly excitation: Excitation;
  readonly assumptions: readonly Assumption[];
}

/**
 * Idle loss and exciting current as a shunt admittance across the whole input, S: G = P/V^2, |Y| = S/V^2,
 * B = sqrt(|Y|^2 - G^2), with P and S the idle watts and volt-amperes at the rated voltage V of the input.
 *
 * Idle watts and volt-amperes belong to the flux in the core, so they are the same whichever winding is fed. From
 * rating alone both are assumed; when the impedance is known in any way, only what is stated counts.
 */
export function excitationOf(spec: TransformerSpec, part: string): ExcitationFound {
  if (spec.openCircuit !== undefined)
    return { excitation: fromTest(spec, spec.openCircuit), assumptions: [] };
  const stated = spec.idleLoss_W !== undefined || excitingPower_VA(spec) !== undefined;
  if (stated) {
    const idle_W = spec.idleLoss_W ?? 0;
    return {
      excitation: across(idle_W, excitingPower_VA(spec) ?? idle_W, inputVoltage_V(spec)),
      assumptions: [],
    };
  }
  const known = spec.impedance ?? spec.impedance_percent ?? spec.shortCircuit;
  if (known !== undefined || spec.rating_VA === undefined) return { excitation: none, assumptions: [] };
  return fromRating(spec, spec.rating_VA, part);
}

function across(idle_W: number, drawn_VA: number, voltage_V: number): Excitation {
  return {
    conductance_S: idle_W / voltage_V ** 2,
    susceptance_S: Math.sqrt(Math.max(0, drawn_VA ** 2 - idle_W ** 2)) / voltage_V ** 2,
  };
}

/** The admittance measured on one winding, carried to the input by the square of the turns. */
function fromTest(spec: TransformerSpec, test: TestReading): Excitation {
  const measured = across(test.power_W, test.voltage_V * test.current_A, test.voltage_V);
  const own_V = spec.windings_V[test.side === "first" ? 0 : 1];
  const ratio = (own_V / inputVoltage_V(spec)) ** 2;
  return { conductance_S: measured.conductance_S * ratio, susceptance_S: measured.susceptance_S * ratio };
}

function fromRating(spec: TransformerSpec, rating_VA: number, part: string): ExcitationFound {
  const { idleLoss_W } = smallUnit(rating_VA);
  const exciting_VA = Math.max((EXCITING_PERCENT.nominal / 100) * rating_VA, idleLoss_W);
  const common = { part, grade: "assumed", basis: "common practice, no source" } as const;
  const range = shownRange(EXCITING_PERCENT.low, EXCITING_PERCENT.high, "%");
  return {
    excitation: across(idleLoss_W, exciting_VA, inputVoltage_V(spec)),
    assumptions: [
      { ...common, what: "idle loss", value: shown(idleLoss_W, "W"), range: null },
      { ...common, what: "exciting current", value: shown((100 * exciting_VA) / rating_VA, "%"), range },
    ],
  };
}
