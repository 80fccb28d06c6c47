import { type Cabinet, readCabinet } from "@startgap/cabinet";
import { check } from "../check.ts";
import { isFailure, type StudyFailure } from "../failure.ts";
import { lowest, lowestMotor_percent, lowestPoint_percent } from "../judge/lowest.ts";
import type { StudyOptions } from "../options.ts";
import { deciding } from "../order.ts";
import type { CheckReport } from "../results.ts";
import { largerTransformers } from "./larger.ts";
import { otherLegs } from "./otherLeg.ts";
import type { Proposal } from "./proposal.ts";
import type { CabinetStanding, Improvement, ImproveReport } from "./results.ts";
import { stifferSupply } from "./stiffer.ts";
import { thickerCables } from "./thicker.ts";

/** Gain of the lowest voltage, percent, from which a change that settles no finding still counts. */
const WORTH_percent = 1;

/** Every kind of change that is tried. */
const kinds = [thickerCables, largerTransformers, otherLegs, stifferSupply];

/**
 * Tries every single change that the file leaves room for, and says which helps most: a cable in the next two
 * sizes, a transformer in the next rating, a part on the other leg, a supply twice as stiff.
 *
 * Each is the same cabinet file with one key changed, read and checked again like any other. Those that help come
 * first; ranked by findings that fail, then cautions, both without those of the case "together", then by the lowest
 * voltage of all, in percent.
 *
 * Limitations: one change at a time; neither price nor whether it fits the box; what protects the changed part is
 * not asked (see `protect`).
 *
 * @returns the cabinet as it is and with each change; or one sentence why even the first could not be finished
 *
 * Checked by packages/study/test/improve against closed forms of the voltage and the same files checked by hand.
 */
export function improve(cabinet: Cabinet, options: StudyOptions = {}): ImproveReport | StudyFailure {
  const proposals = kinds.flatMap((kind) => kind(cabinet));
  const told = check(cabinet, options);
  if (isFailure(told)) return told;
  const asItIs = standingOf(told.report, cabinet);
  const changes: Improvement[] = [];
  for (const [i, proposal] of proposals.entries()) {
    if (options.signal?.aborted) return { failed: "Cancelled before every change was tried.", at_s: 0 };
    changes.push(tried(proposal, asItIs, options));
    options.onProgress?.((i + 1) / proposals.length);
  }
  return { startgap: "improve 1", title: cabinet.title, asItIs, changes: changes.sort(mostHelpful) };
}

function tried(
  { part, to, from, file }: Proposal,
  asItIs: CabinetStanding,
  options: StudyOptions,
): Improvement {
  const change = { part, to, from };
  const read = readCabinet(file);
  if ("issues" in read) {
    const [{ expected, received }] = read.issues;
    return { ...change, ...asItIs, helps: false, failed: `expected ${expected}, found ${received}` };
  }
  const told = check(read.cabinet, { ...options, onProgress: undefined });
  if (isFailure(told)) return { ...change, ...asItIs, helps: false, failed: told.failed };
  const standing = standingOf(told.report, read.cabinet);
  return { ...change, ...standing, helps: helps(standing, asItIs), failed: null };
}

function standingOf(report: CheckReport, { circuit }: Cabinet): CabinetStanding {
  const { cases, findings, delay } = report;
  const counted = deciding(report);
  const count = (outcome: string): number => counted.filter((finding) => finding.outcome === outcome).length;
  const kept = cases.filter((one) => one.case !== "together");
  const together = findings.filter((finding) => finding.case === "together");
  return {
    fails: count("fail"),
    cautions: count("caution"),
    lowestMotor_percent: lowest(kept.flatMap((one) => lowestMotor_percent(one, circuit) ?? [])),
    lowestPoint_percent: lowest(kept.flatMap((one) => lowestPoint_percent(one) ?? [])),
    together: kept.length === cases.length ? null : together.every((finding) => finding.outcome !== "fail"),
    shortest_s: delay.shortest_s,
  };
}

const lowestOf = ({ lowestMotor_percent, lowestPoint_percent }: CabinetStanding): number =>
  Math.min(lowestMotor_percent ?? 100, lowestPoint_percent ?? 100);

const mostHelpful = (a: Improvement, b: Improvement): number =>
  Number(b.helps) - Number(a.helps) || better(a, b);

/** Fewer fails, then fewer cautions, then the higher lowest voltage, first. */
const better = (a: CabinetStanding, b: CabinetStanding): number =>
  a.fails - b.fails || a.cautions - b.cautions || lowestOf(b) - lowestOf(a);

/** Fewer fails; or no more of them and no lower voltage, and either fewer cautions or a higher one. */
function helps(changed: CabinetStanding, asItIs: CabinetStanding): boolean {
  if (changed.fails !== asItIs.fails) return changed.fails < asItIs.fails;
  const gain = lowestOf(changed) - lowestOf(asItIs);
  return changed.cautions < asItIs.cautions
    ? gain > -WORTH_percent
    : changed.cautions === asItIs.cautions && gain >= WORTH_percent;
}
