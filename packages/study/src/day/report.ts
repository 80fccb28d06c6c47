import type { ControlParameters } from "@startgap/circuit";
import { startsAllowed } from "../heat/starts.ts";
import { byDanger } from "../order.ts";
import { factsOf } from "../protection/scene.ts";
import type { Told } from "./course.ts";
import { factorIn } from "./derating.ts";
import { dayFindings } from "./findings.ts";
import { highest, lowest, mostInAnHour } from "./hours.ts";
import { notesOf } from "./notes.ts";
import type {
  DayBox,
  DayFuse,
  DayMotor,
  DayReceiver,
  DayReport,
  DayStarts,
  DayTransformer,
  MeltAt,
} from "./results.ts";
import type { StartSeen } from "./watch.ts";

/** The report of a day that was gone through. */
export function reportOf(told: Told): DayReport {
  const { cabinet, options, supplied, traces } = told;
  const figures = {
    hours: told.end_s / 3600,
    demand: supplied.from,
    motors: told.bodies.motors.map((_, k) => motorOf(told, k)),
    transformers: told.bodies.wound.map((_, k) => transformerOf(told, k)),
    fuses: told.fuses.flatMap((_, k) => fuseOf(told, k)),
    receivers: receiversOf(told),
    box: boxOf(told),
  };
  return Object.freeze({
    startgap: "day 1",
    title: cabinet.title,
    season: options.season ?? "summer",
    ...figures,
    ended: endedOf(told),
    energy: energyOf(told),
    starts: startsOf(told),
    traces,
    findings: byDanger(dayFindings(figures, told)),
    notes: notesOf(told),
  });
}

const endedOf = ({ outcome, end_s, options }: Told): string =>
  outcome.ending === "finished" || end_s >= (options.hours ?? 24) * 3600
    ? `Reached ${Number((end_s / 3600).toPrecision(4))} h.`
    : outcome.says;

const columnOf = ({ traces }: Told, quantity: string, part: string): Float64Array =>
  traces.columns.find((c) => c.quantity === quantity && c.part === part)?.values ?? new Float64Array(0);

function motorOf(told: Told, k: number): DayMotor {
  const { traces, watch, bodies, scene } = told;
  const body = bodies.motors[k];
  const mine = watch.starts.filter(({ motor }) => motor === k);
  const times = mine.map(({ time_s }) => time_s);
  const p = scene.circuit.parts[told.layout.motors[k]];
  const power_W = factsOf(scene, "motor", body.part)?.power_W ?? null;
  const allowed =
    power_W === null || p.is !== "motor" ? null : startsAllowed(power_W, p.machine.poles, p.inertia_kgm2);
  return {
    part: body.part,
    starts: mine.length,
    failed: mine.filter((one) => !came(one, told.end_s)).length,
    running_s: runningOf(traces.time_s, columnOf(told, "running", body.part)),
    mostInAnHour: mostInAnHour(times, () => 1),
    shortestRest_s: shortestRest(told, k, times),
    allowed,
    fills: p.is === "motor" ? (p.compressor?.delivers?.receiver ?? null) : null,
    startWinding: startWindingOf(told, k, mine),
    hottest: highest(traces.time_s, columnOf(told, "winding temperature", body.part)),
    limit_C: body.limit_C,
  };
}

/** A start that is still going on as the day ends has not failed yet. */
const STILL_GOING_s = 5;
const came = ({ up, time_s }: StartSeen, end_s: number): boolean => up || end_s - time_s < STILL_GOING_s;

function runningOf(time_s: Float64Array, running: Float64Array): number {
  let sum = 0;
  for (let k = 1; k < running.length; k++) sum += running[k - 1] * (time_s[k] - time_s[k - 1]);
  return sum;
}

function shortestRest({ watch }: Told, k: number, starts: readonly number[]): number | null {
  const stops = watch.stops.filter(({ motor }) => motor === k).map(({ time_s }) => time_s);
  const rests = stops.flatMap((stop) => {
    const next = starts.find((t) => t >= stop);
    return next === undefined ? [] : [next - stop];
  });
  return rests.length === 0 ? null : Math.min(...rests);
}

function startWindingOf(told: Told, k: number, mine: readonly StartSeen[]): DayMotor["startWinding"] {
  const body = told.bodies.motors[k];
  const p = told.scene.circuit.parts[told.layout.motors[k]];
  if (body.startWindingLimit_C === null || p.is !== "motor") return null;
  const hottest = highest(told.traces.time_s, columnOf(told, "start winding temperature", body.part));
  return {
    longest_s: Math.max(0, ...mine.map(({ startWinding_s }) => startWinding_s)),
    hottest_C: hottest.value,
    at_s: hottest.at_s,
    inAnHour: mostInAnHour(
      mine.map(({ time_s }) => time_s),
      (i) => mine[i].startWinding_s,
    ),
    hasCapacitor: p.machine.startCapacitor !== null,
  };
}

function transformerOf(told: Told, k: number): DayTransformer {
  const { part, insulation_C } = told.bodies.wound[k];
  const { time_s } = told.traces;
  return {
    part,
    winding: highest(time_s, columnOf(told, "winding temperature", part)),
    core: highest(time_s, columnOf(told, "core temperature", part)),
    insulation_C,
  };
}

function fuseOf(told: Told, k: number): DayFuse[] {
  const p = told.scene.circuit.parts[told.fuses[k]];
  if (p.is !== "fuse" || p.melt === null) return [];
  const at = (one: StartSeen): MeltAt => ({
    meltFraction: one.melt[k],
    at_s: one.time_s,
    air_C: one.air_C,
    factor: factorIn(told.scene, p.name, one.air_C),
  });
  const { starts } = told.watch;
  const melts = (a: StartSeen): number => a.melt[k];
  const worst = starts.length === 0 ? null : starts.reduce((a, b) => (melts(b) > melts(a) ? b : a));
  // The first of two motors always does less than the second on top of it: like is told beside like.
  const alike = starts.filter(({ motor }) => motor === worst?.motor);
  const mildest = alike.length === 0 ? null : alike.reduce((a, b) => (melts(b) < melts(a) ? b : a));
  return [
    {
      part: p.name,
      worst: worst && at(worst),
      mildest: mildest && at(mildest),
      melted_s: told.events.find(({ name }) => name === `${p.name}: melts`)?.t ?? null,
    },
  ];
}

function receiversOf(told: Told): DayReceiver[] {
  const controls: readonly ControlParameters[] = told.scene.circuit.controls ?? [];
  return controls.flatMap((c): DayReceiver[] => {
    if (c.is !== "receiver") return [];
    const values = columnOf(told, "pressure", c.name).map((kPa) => 1000 * kPa);
    const bands = controls.flatMap((s) => (s.is === "pressure switch" && s.receiver === c.name ? [s] : []));
    const when = (what: string): number | null =>
      told.events.find(({ name }) => name === `${c.name}: ${what}`)?.t ?? null;
    return [
      {
        part: c.name,
        lowest: lowest(told.traces.time_s, values),
        highest: highest(told.traces.time_s, values),
        band_Pa:
          bands.length === 0
            ? null
            : [Math.min(...bands.map((s) => s.cutIn_Pa)), Math.max(...bands.map((s) => s.cutOut_Pa))],
        ranEmpty_s: when("runs empty"),
        relieved_s: when("relief valve lifts"),
      },
    ];
  });
}

function boxOf(told: Told): DayBox | null {
  if (told.bodies.box === null) return null;
  const values = columnOf(told, "temperature", "enclosure");
  const { time_s } = told.traces;
  return { hottest: highest(time_s, values), coolest: lowest(time_s, values) };
}

function energyOf({ sums, layout, kinetic_J, thermal }: Told): DayReport["energy"] {
  const { at } = layout;
  return {
    supply_J: sums[at.supply_J],
    lost_J: sums[at.lost_J],
    shaft_J: sums[at.shaft_J],
    kinetic_J,
    motors: thermal.motors(),
    box: thermal.inBox(),
  };
}

function startsOf({ watch, fuses, scene }: Told): DayStarts {
  const column = (value: (one: StartSeen) => number): Float64Array => Float64Array.from(watch.starts, value);
  return {
    time_s: column(({ time_s }) => time_s),
    motor: column(({ motor }) => motor),
    runUp_s: column(({ runUp_s }) => runUp_s),
    startWinding_s: column(({ startWinding_s }) => startWinding_s),
    energy_J: column(({ energy_J }) => energy_J),
    air_C: column(({ air_C }) => air_C),
    melt: fuses.map((i, f) => ({ part: scene.circuit.parts[i].name, values: column(({ melt }) => melt[f]) })),
  };
}
