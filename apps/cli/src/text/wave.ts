import type { Cabinet } from "@startgap/cabinet";
import type { Agreement, ClampReading, InrushStudy, WaveStudy } from "@startgap/study";
import type { Screen } from "../io.ts";
import { caseName } from "./cases.ts";
import { caution } from "./cautions.ts";
import { verdictLines } from "./findings.ts";
import { amperes, percent, rated, seconds, significant } from "./numbers.ts";
import { painter } from "./paint.ts";
import { table } from "./table.ts";
import { wrap } from "./wrap.ts";

/** A moment of the story to the millisecond. */
const moment = (t: number): string => `${Number(t.toFixed(3))} s`;

function clampRow(reading: ClampReading, asymmetry: number | null): string[] {
  const { part, from_s, rms_A, peak_A } = reading;
  if (from_s === null) return [part, "-", "-", "-", "-"];
  const first = asymmetry === null ? "-" : `${significant(asymmetry, 2)} x`;
  return [part, moment(from_s), amperes(rms_A), amperes(peak_A), first];
}

/** What a clamp meter shows of the line and of every motor; a dash where it does not trigger. */
function clampTable({ line, motors }: WaveStudy, width: number): string[] {
  const head = ["clamp meter", "from", `rms of ${seconds(line.window_s)}`, "peak", "first peak"];
  const rows = motors.map((motor) => clampRow(motor.clamp, motor.firstPeakAsymmetry));
  return table([head, clampRow(line, null), ...rows], width);
}

function fuseLines({ fuses }: WaveStudy, width: number): string[] {
  return fuses.flatMap(({ part, from_s, time_s, i2t_A2s, melting_A2s }) => {
    const share = percent(i2t_A2s / melting_A2s);
    const heaviest = `${part}: its heaviest ${seconds(time_s)}, from ${moment(from_s)}`;
    return wrap(`${heaviest}, take ${share} of what melts it in that time.`, width, 2);
  });
}

/** Beyond this the first cycles are told as "more": a current that has just begun has no percentage worth a name. */
const MOST = 1;

function agreementSentence({ rms, worst, firstCycles, runUp, melt }: Agreement): string {
  const where = worst === null ? "" : ` (${worst.part}, ${worst.quantity}, at ${moment(worst.at_s)})`;
  const first = firstCycles > MOST ? "more than 100 %" : percent(firstCycles);
  return (
    `Against the rms resolution: within ${percent(rms)} after the first cycles${where}, ` +
    `in those up to ${first}; run-up ${percent(runUp)}, melting ${percent(melt)} apart.`
  );
}

function switchOnLines(switched: InrushStudy, screen: Screen): string[] {
  const { worst, harmonics_A: harmonics, finding, afterRepeats } = switched;
  const paint = painter(screen.colour);
  const first = Math.max(harmonics[1], 1e-9);
  const loads = worst.loads ? "with the loads on" : "alone";
  const says =
    `Switched on ${loads} at ${worst.angle_deg} degrees with ${percent(Math.abs(worst.residual))} of its flux ` +
    `left, the worst of ${switched.tried.length} tries: first peak ${amperes(worst.peak_A)}, second harmonic ` +
    `${percent(harmonics[2] / first)} of the first, mean ${percent(harmonics[0] / first)}.`;
  const last = afterRepeats[afterRepeats.length - 1] ?? 0;
  const repeats = `${afterRepeats.length} times without time to cool: ${percent(last)}.`;
  if (finding === null) return ["", ...wrap(says, screen.width)];
  const judged = verdictLines(finding.outcome, `${finding.says} ${repeats}`, screen.width, paint);
  return ["", ...wrap(says, screen.width), ...judged];
}

/** A waveform for a person, as lines. */
export function waveText(
  cabinet: Cabinet,
  study: WaveStudy,
  switched: InrushStudy | null,
  screen: Screen,
): string[] {
  const { width } = screen;
  const paint = painter(screen.colour);
  const swept = study.angles.length > 0 ? ", the worst of half a turn" : "";
  const told =
    `Waveform of "${caseName(study)}", ${moment(study.from_s)} to ${moment(study.to_s)}; voltage at ` +
    `${rated(study.angle_deg)} degrees at 0 s${swept}.`;
  return [
    ...wrap(study.title, width).map((line) => paint("bold", line)),
    ...wrap(told, width),
    "",
    ...clampTable(study, width),
    "",
    ...fuseLines(study, width),
    ...wrap(agreementSentence(study.agreement), width),
    ...study.leftOut.flatMap((says) => wrap(says, width, 2)),
    ...(switched === null ? [] : switchOnLines(switched, screen)),
    "",
    ...wrap(caution(cabinet.circuit), width).map((line) => paint("dim", line)),
  ];
}
