import type { Circuit, InverterSource } from "@startgap/circuit";
import { GENERATOR_DIP_percent, GENERATOR_RECOVERY_s, INVERTER_percent, type Limit } from "./limits.ts";
import { worth } from "./remedies.ts";
import type { CaseReport, Finding, SourceResult, Verdict } from "./results.ts";
import { amperes, percent, seconds, volts } from "./words.ts";

/** What is asked of a generator or an inverter; nothing of any other supply. Reads results only. */
export function sourceFindings(report: CaseReport, circuit: Circuit): Finding[] {
  const { source } = report;
  const [p] = circuit.parts;
  if (source === undefined || p.is !== "supply") return [];
  if (p.source?.is === "inverter") return [inverterFinding(source, p.source, report)];
  return [dipFinding(source, report), recoveryFinding(source, report)];
}

const most = (value: number, limit: Limit): Verdict =>
  value <= limit.pass ? "pass" : value <= limit.fail ? "caution" : "fail";

function dipFinding(source: SourceResult, report: CaseReport): Finding {
  const value = 100 * (1 - source.lowestVoltage_V / source.nominal_V);
  const forced = source.atLimit_s > 0 ? `, its field at its ceiling for ${seconds(source.atLimit_s)}` : "";
  return {
    finding: "generator dip",
    part: source.part,
    case: report.case,
    ...worth("generator dip", most(value, GENERATOR_DIP_percent)),
    value,
    limit: GENERATOR_DIP_percent.pass,
    unit: "%",
    basis: GENERATOR_DIP_percent.basis,
    says: `${source.part}: dips by ${percent(value)}, to ${volts(source.lowestVoltage_V)}${forced}.`,
  };
}

function recoveryFinding(source: SourceResult, report: CaseReport): Finding {
  const value = source.recovery_s;
  return {
    finding: "generator recovery",
    part: source.part,
    case: report.case,
    ...worth("generator recovery", value === null ? "fail" : most(value, GENERATOR_RECOVERY_s)),
    value,
    limit: GENERATOR_RECOVERY_s.pass,
    unit: "s",
    basis: GENERATOR_RECOVERY_s.basis,
    says:
      value === null
        ? `${source.part}: its voltage does not come back in the time shown.`
        : value === 0
          ? `${source.part}: its voltage stays within 5 %.`
          : `${source.part}: its voltage is back within 5 % after ${seconds(value)}.`,
  };
}

function inverterFinding(
  source: SourceResult,
  { limit_A, surge_s }: InverterSource,
  report: CaseReport,
): Finding {
  const { part, atLimit_s, shutDown_s, peakCurrent_A } = source;
  const value = (100 * peakCurrent_A) / limit_A;
  const held = `at its limit of ${amperes(limit_A)} or its rating for ${seconds(atLimit_s)}`;
  return {
    finding: "inverter holds",
    part,
    case: report.case,
    ...worth(
      "inverter holds",
      shutDown_s !== null ? "fail" : atLimit_s > 0 ? "caution" : most(value, INVERTER_percent),
    ),
    value,
    limit: INVERTER_percent.pass,
    unit: "%",
    basis: INVERTER_percent.basis,
    says:
      shutDown_s !== null
        ? `${part}: shuts down at ${seconds(shutDown_s)}, its ${seconds(surge_s)} of surge are not enough.`
        : atLimit_s > 0
          ? `${part}: ${held}, its voltage falls to ${volts(source.lowestVoltage_V)}.`
          : `${part}: ${amperes(peakCurrent_A)} at the most, ${percent(value)} of its limit.`,
  };
}
