import type { Cabinet, Issue } from "@startgap/cabinet";
import {
  type InrushStudy,
  inrush,
  isFailure,
  longestWindow_s,
  type StudyFailure,
  tracesCsv,
  type WaveOptions,
  type WaveStudy,
  wave,
} from "@startgap/study";
import type { Io, OutputFile } from "../io.ts";
import { jsonText } from "../json.ts";
import { named } from "../named.ts";
import { giveUp, prepare, refuse } from "../prepare.ts";
import { watched } from "../progress.ts";
import type { SettingFlags } from "../settings.ts";
import { exit } from "../status.ts";
import { lines } from "../text/plain.ts";
import { waveText } from "../text/wave.ts";
import { readWaveSettings, type WaveFlags } from "../waveSettings.ts";

export interface WaveCommandFlags extends SettingFlags, WaveFlags {
  readonly inrush?: boolean;
  readonly part?: string;
  readonly json?: boolean;
  readonly traces?: string;
  readonly output?: string;
}

interface Answer {
  readonly study: WaveStudy;
  /** Null where it was not asked for, or there is no transformer. */
  readonly switched: InrushStudy | null;
}

/** `startgap wave FILE`: a start in the waveform resolution. Its exit status tells of the switch-on, when asked for. */
export async function waveCommand(file: string, flags: WaveCommandFlags, io: Io): Promise<number> {
  const asked = readWaveSettings(flags);
  const wanted = [
    { flag: "--output", path: flags.output, ending: ".svg" },
    { flag: "--traces", path: flags.traces, ending: ".csv" },
  ];
  const ready = await prepare({ file, flags, wanted, issues: asked.issues }, io);
  if (typeof ready === "number") return ready;
  const { cabinet } = ready;
  const options = { ...ready.options, ...asked.options };
  const issues = unfit(cabinet, options, flags.part);
  if (issues.length > 0) return refuse(issues, io, file);
  const answer = watched(io, "Following the wave", (onProgress) =>
    answered(cabinet, { ...options, onProgress }, flags.inrush === true),
  );
  if (isFailure(answer)) return giveUp(answer, io);
  const files = await filesOf(answer, flags, io);
  io.writeAll(files);
  if (flags.json) io.out.write(jsonText(jsonOf(answer)));
  else {
    const said = waveText(cabinet, answer.study, answer.switched, io.out);
    io.out.write(lines([...said, ...files.map(({ path }) => `Wrote ${path}`)]));
  }
  return answer.switched?.finding?.outcome === "fail" ? exit.failed : exit.passed;
}

/** What the cabinet cannot give: a case, a part, so long a window. */
function unfit({ circuit }: Cabinet, options: WaveOptions, part: string | undefined): readonly Issue[] {
  const issues: Issue[] = [];
  const motors = circuit.parts.filter((p) => p.is === "motor").length;
  if (motors < 2 && options.case !== undefined && options.case !== "one")
    issues.push({
      path: "--case",
      expected: "one: this cabinet has no second motor",
      received: options.case,
    });
  if (part !== undefined) {
    const chosen = named(circuit.parts, "part", part, "--part");
    if ("issues" in chosen) issues.push(...chosen.issues);
  }
  const { from_s = 0, to_s } = options;
  const longest = longestWindow_s(circuit);
  if (to_s !== undefined && to_s - from_s > longest)
    issues.push({
      path: "--to",
      expected: `at most ${longest} s after --from: so much waveform of this cabinet can be kept`,
      received: `${to_s - from_s} s`,
    });
  return issues;
}

function answered(cabinet: Cabinet, options: WaveOptions, withInrush: boolean): Answer | StudyFailure {
  const study = wave(cabinet, options);
  if (isFailure(study)) return study;
  const switched = withInrush ? inrush(cabinet.circuit) : null;
  if (switched !== null && isFailure(switched)) return switched;
  return { study, switched };
}

async function filesOf({ study, switched }: Answer, flags: WaveCommandFlags, io: Io): Promise<OutputFile[]> {
  const files: OutputFile[] = [];
  if (flags.traces !== undefined) files.push({ path: flags.traces, text: tracesCsv([study]) });
  if (flags.output !== undefined) {
    const { svgText, switchOn, waveform } = await import("@startgap/figures");
    const page = await io.document();
    const node = switched === null ? waveform(page, study, { part: flags.part }) : switchOn(page, switched);
    files.push({ path: flags.output, text: svgText(node) });
  }
  return files;
}

/** Samples go to --traces: the object holds what was read off them. */
function jsonOf({ study, switched }: Answer): object {
  const { traces, ...rest } = study;
  if (switched === null) return { ...rest, samples: traces.time_s.length, switchOn: null };
  const { traces: _, ...switchedOn } = switched;
  return { ...rest, samples: traces.time_s.length, switchOn: switchedOn };
}
