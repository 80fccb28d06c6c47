import { execFileSync } from "node:child_process";
import { mkdtempSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";

const here = new URL("./peers/", import.meta.url).pathname;
const libraries = ["cvode", "nvecserial", "sunnonlinsolfixedpoint", "sunlinsoldense", "sunmatrixdense"];

/** Milliseconds a run at a tolerance, by peer. */
export type PeerTimes = ReadonlyMap<number, number>;

/** The C peer (variable-order Adams of a public solver suite), compiled here; null where it cannot be. */
export function timeC(): PeerTimes | null {
  try {
    const program = join(mkdtempSync(join(tmpdir(), "startgap-")), "reference_problem");
    const link = libraries.map((name) => `-lsundials_${name}`);
    execFileSync(
      "gcc",
      ["-O3", "-march=native", `${here}reference_problem.c`, "-o", program, ...link, "-lm"],
      {
        stdio: "pipe",
      },
    );
    return timesIn(execFileSync(program, { encoding: "utf8" }), /^ADAMS tol (\S+) ms\/run (\S+)/gm);
  } catch {
    return null;
  }
}

/** The Python peer (LSODA); null where SciPy is not installed. */
export function timePython(): PeerTimes | null {
  try {
    const text = execFileSync("python3", [`${here}reference_problem.py`], {
      encoding: "utf8",
      stdio: "pipe",
    });
    return timesIn(text, /^LSODA (\S+) (\S+) ms\/run/gm);
  } catch {
    return null;
  }
}

/** The forms in which the same equations are written for SciPy, from the usual to the hand-tuned. */
export const WAVE_FORMS = ["matrix", "scalar", "floats"] as const;

export interface WavePeer {
  readonly times: Readonly<Record<(typeof WAVE_FORMS)[number], PeerTimes>>;
  /** Its last sample at 1e-10. */
  readonly last_A: number;
}

/** The waveform problem in SciPy's DOP853, milliseconds by tolerance; null where SciPy is not installed. */
export function timeWave(): WavePeer | null {
  try {
    const text = execFileSync("python3", ["-B", `${here}wave_problem.py`], {
      encoding: "utf8",
      stdio: "pipe",
    });
    const last_A = Number(/^SAMPLES \d+ \S+ (\S+)/m.exec(text)?.[1]);
    const of = (form: string): PeerTimes => timesIn(text, new RegExp(`^${form} (\\S+) (\\S+) ms/run`, "gm"));
    return { times: { matrix: of("matrix"), scalar: of("scalar"), floats: of("floats") }, last_A };
  } catch {
    return null;
  }
}

function timesIn(text: string, pattern: RegExp): PeerTimes {
  return new Map([...text.matchAll(pattern)].map(([, tolerance, ms]) => [Number(tolerance), Number(ms)]));
}
