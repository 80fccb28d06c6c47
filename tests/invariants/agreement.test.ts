import { type Cabinet, examples, parseCabinet } from "@startgap/cabinet";
import { asStated, waveBalance, wavePlantOf } from "@startgap/circuit";
import { run } from "@startgap/ode";
import { type CaseName, isFailure, type WaveStudy, wave } from "@startgap/study";
import { describe, expect, it } from "vitest";

/** What both resolutions must agree in, from the third cycle after a switching on, and at the end. */
const ASKED = { rms: 0.02, runUp: 0.02, melt: 0.05 };
type Figures = typeof ASKED;

/**
 * Where a case misses what is asked: how far it may, measured, and what must take the miss away again.
 *
 * - A light rotor swings twice a cycle with the torque and is up before its windings' offset has died away; the
 *   envelope has the mean torque and windings in steady state. So that with `heavier` times the inertia it agrees.
 * - A running motor answers another's start with its rotor flux, in some cycles: within `cycles` of that start.
 * - A core keeps the flux offset of a start for long, and saturates once a cycle; the envelope's susceptance does not.
 *   So that without a core it agrees.
 */
interface Miss extends Partial<Figures> {
  readonly because: { readonly heavier: number } | { readonly cycles: number } | "core";
  /** End of the window with heavier rotors. */
  readonly to_s?: number;
}

const MISSES: Readonly<Record<string, Miss>> = {
  "ice-shed staggered": { rms: 0.032, because: { cycles: 8 } },
  "pump-pair one": { runUp: 0.03, because: { heavier: 10 }, to_s: 6 },
  "pump-pair together": { rms: 0.37, runUp: 0.13, melt: 0.085, because: { heavier: 10 }, to_s: 8 },
  "pump-pair staggered": { rms: 0.04, runUp: 0.07, because: { heavier: 10 }, to_s: 8 },
  "two-legs together": { rms: 0.025, because: { heavier: 4 }, to_s: 4 },
  "two-legs staggered": { rms: 0.033, because: { heavier: 4 }, to_s: 13.5 },
  "barn-workshop together": { rms: 0.024, because: { heavier: 10 }, to_s: 8 },
  "barn-workshop staggered": { rms: 0.095, runUp: 0.027, because: { heavier: 10 }, to_s: 12 },
  "shop-air one": { rms: 0.028, because: "core" },
  "shop-air together": { rms: 0.028, because: "core" },
  "shop-air staggered": { rms: 0.028, because: "core" },
};
/** The contactor lets go and pulls in again and again: moments of chatter cannot be compared. */
const CHATTERS = ["ice-shed together"];

const cabinets = examples.map(({ key, text }) => {
  const read = parseCabinet(text);
  if ("issues" in read) throw new Error(`bad example: ${key}`);
  return { key, cabinet: read.cabinet };
});

function told(cabinet: Cabinet, name: CaseName, to_s?: number): WaveStudy {
  const study = wave(cabinet, { case: name, to_s });
  if (isFailure(study)) throw new Error(study.failed);
  return study;
}

/** The same cabinet without what a miss is put down to. */
function without({ circuit, ...cabinet }: Cabinet, because: Miss["because"]): Cabinet {
  const parts = circuit.parts.map((p) => {
    if (because === "core") return "rating_VA" in p ? { ...p, rating_VA: Number.POSITIVE_INFINITY } : p;
    if (p.is !== "motor" || !("heavier" in because)) return p;
    return { ...p, inertia_kgm2: p.inertia_kgm2 * because.heavier };
  });
  return { ...cabinet, circuit: { ...circuit, parts } };
}

const figures: readonly (keyof Figures)[] = ["rms", "runUp", "melt"];

function holds(study: WaveStudy, limits: Figures): void {
  for (const figure of figures) {
    const { agreement } = study;
    const where = figure === "rms" ? JSON.stringify(agreement.worst) : "";
    expect(agreement[figure], `${figure} ${where}`).toBeLessThan(limits[figure]);
  }
}

const cases: readonly CaseName[] = ["one", "together", "staggered"];
const all = cabinets.flatMap(({ key, cabinet }) => {
  const motors = cabinet.circuit.parts.filter((p) => p.is === "motor").length;
  return cases.slice(0, motors > 1 ? 3 : 1).map((name) => ({ name, cabinet, key: `${key} ${name}` }));
});

describe.each(all)("$key", ({ key, cabinet, name }) => {
  const study = told(cabinet, name);
  const miss: Miss | undefined = MISSES[key];
  const lets = study.events.some(({ what }) => what === "opens");

  it.runIf(CHATTERS.includes(key))("chatters, and is not compared", () => {
    expect(lets).toBe(true);
  });
  if (CHATTERS.includes(key)) return;

  it("agrees with the envelope: rms 2 %, run-up 2 %, melt fraction 5 %, or as measured (invariant)", () => {
    expect(lets).toBe(false);
    holds(study, { ...ASKED, ...miss });
  });

  it.runIf(miss !== undefined)("misses no more than that, and for the reason given (invariant)", () => {
    if (miss === undefined) return;
    for (const figure of figures) {
      if (miss[figure] !== undefined) expect(study.agreement[figure]).toBeGreaterThan(ASKED[figure]);
    }
    const { because } = miss;
    if (because !== "core" && "cycles" in because) {
      const late = (study.agreement.worst?.at_s ?? 0) - study.delay_s;
      expect(late).toBeGreaterThan(0);
      expect(late * study.frequency_Hz).toBeLessThan(because.cycles);
    } else holds(told(without(cabinet, because), name, miss.to_s), ASKED);
  });
});

describe.each(cabinets)("$key in instantaneous form", ({ cabinet }) => {
  it("balances its power at every sample (invariant, 1e-6)", () => {
    const plant = wavePlantOf(cabinet.circuit);
    const script = { ...asStated, delay_s: () => 0.3, connects_s: () => 0 };
    let worst = 0;
    run(plant, plant.start({ script }), 0.8, {
      tolerance: 1e-5,
      maxStep: 1 / 240,
      snapshots: Array.from({ length: 4000 }, (_, k) => (k + 1) / 5000),
      onSnapshot: (t, y, mode) => {
        worst = Math.max(worst, waveBalance(plant, t, y, mode));
      },
    });
    expect(worst).toBeLessThan(1e-6);
  });
});
