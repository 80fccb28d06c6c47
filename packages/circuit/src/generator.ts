import { eventName, lostInSeries, type PartGuard, type PartModel, type Placement, plain } from "./model.ts";
import { type SupplyMode, type SupplyParameters, voltageSteps } from "./supply.ts";
import { magnitude, type Walk } from "./walk.ts";

/** What a generator has beside its resistance and transient reactance, which are the supply's impedance. */
export interface GeneratorSource {
  readonly is: "generator";
  readonly rating_VA: number;
  /** Synchronous reactance: what stands behind the field's voltage once the flux has followed the load. */
  readonly synchronous_ohm: number;
  /** Open-circuit time constant of the field, T'd0. */
  readonly fieldTime_s: number;
  /** Highest field over the one that gives the rated voltage without load. */
  readonly ceiling: number;
  /**
   * From a load step until the voltage is back within 3 %, for every load that the ceiling can sustain; null
   * without a regulator: the field stays as it stood before the story.
   */
  readonly recovery_s: number | null;
}

export interface GeneratorMode extends SupplyMode {
  /** Where the field stands: the regulator's to set, or at an end of what it can give. */
  readonly field: "regulated" | "at its ceiling" | "shut";
}

/** Real and imaginary part of the voltage behind the transient reactance, and the regulator's memory. */
export const GENERATOR_STATES = 3;

/** No regulator is taken as faster than this: it would act within the very cycles whose rms it reads. */
const FASTEST_RECOVERY_s = 0.1;
/** A disturbance decays to e^-3, a twentieth, in the recovery time. */
const DECAYS = 3;
/** A field leaves an end only this part of its ceiling away from it: no bounce by the rounding of a solve. */
const BOUNCE = 1e-9;
/** Smallest gain: field per unit for a voltage per unit. */
const LEAST_GAIN = 1;

/** A regulator's proportional gain and the time of its memory. */
export interface Regulator {
  readonly gain: number;
  readonly memory_s: number;
}

/**
 * A regulator that keeps its recovery time for every load that the ceiling can sustain.
 *
 * On a constant impedance the voltage V = d |E'| obeys T dV/dt = d Ef - m V, and Ef = m/d at V = 1, so that m/d lies
 * between 1 (no load) and the ceiling C. With Ef = x + a (1 - V), dx/dt = b (1 - V) the roots are those of
 *
 *     T s^2 + (m + a d) s + b d = 0
 *
 * b = r (C + a), r = 3/recovery, puts the slow root near b/(m/d + a) >= r for every such load; and
 * (1 + a)^2 = 4 T b makes the pair of no load just aperiodic. Both together are one quadratic for a.
 *
 * Checked by packages/circuit/test/generator.test.ts over loads, power factors and recovery times.
 */
export function regulatorOf({ fieldTime_s, ceiling, recovery_s }: GeneratorSource): Regulator {
  if (recovery_s === null) return { gain: 0, memory_s: Number.POSITIVE_INFINITY };
  const r = DECAYS / Math.max(recovery_s, FASTEST_RECOVERY_s);
  const half = 2 * fieldTime_s * r - 1;
  const square = half * half + 4 * fieldTime_s * r * ceiling - 1;
  const gain = Math.max(LEAST_GAIN, half + Math.sqrt(Math.max(0, square)));
  return { gain, memory_s: gain / (r * (ceiling + gain)) };
}

/**
 * A synchronous generator: a voltage E' behind R + j X', whose flux follows field and load, and a regulator.
 *
 * Field winding, per unit of the voltage it gives open-circuited: T'd0 dE'q/dt = Ef - E'q - (Xd - X') Id, and on the
 * other axis T'q0 dE'd/dt = -E'd + (Xq - X') Iq. With a round rotor, Xd = Xq = Xs and one time constant T for both,
 * E' = E'q - j E'd and I = Iq - j Id on the q axis as the real one make that a single law of phasors:
 *
 *     T dE'/dt = Ef - E' - j (Xs - X') I          V = E' - (R + j X') I
 *
 * At a load step E' stands still and V falls to the divider of R + j X'; then the current demagnetises the field,
 * towards Ef/(1 + (R + j Xs) Y) for an admittance Y. The regulator reads the rms voltage at the terminals,
 *
 *     Ef = x + a (V0 - V)   kept between 0 and the ceiling          t_x dx/dt = Ef - x
 *
 * which is proportional and integral action that does not wind up: x follows the field that is really given.
 * Before a story it stands steady on what is live then. A step of the voltage that a story asks for scales what the
 * machine gives and what the regulator holds: 0 is a breaker opened between it and the cabinet.
 *
 * Limitations: the engine's speed stays, so its dip and a frequency-dependent set point are left out, and a recovery
 * time that a maker states for both is laid on the regulator alone; no subtransient, so the first two cycles are
 * taken as the transient; a round rotor (salient poles answer a resistive load some per cent otherwise); no saturation;
 * the ceiling does not fall with the voltage, as that of a set which excites itself from its terminals would.
 *
 * Source: two-axis model with transient saliency neglected, P. Sauer and M. Pai, Power System Dynamics and Stability,
 * chapter 5, and A. Fitzgerald et al., Electric Machinery, on transient reactance; regulator as the simplified
 * proportional-integral types of IEEE Std 421.5 (all from memory). Checked by packages/circuit/test/generator.test.ts
 * and tests/independent/generator.
 */
export function generatorModel(
  p: SupplyParameters,
  source: GeneratorSource,
  place: Placement,
): PartModel<GeneratorMode> {
  const { part, state } = place;
  const [out] = place.out;
  const { r_ohm: r, x_ohm: x, voltage_V: set } = p;
  const { gain, memory_s } = regulatorOf(source);
  const demagnetises = source.synchronous_ohm - x;
  const ceiling = source.ceiling * set;
  const events = fieldEvents(p.name);
  let mode: GeneratorMode = { factor: 1, steps: [], field: "regulated" };
  const wanted = (w: Walk, y: readonly number[]): number =>
    y[state + 2] + gain * (mode.factor * set - magnitude(w, out));
  return {
    ...plain,
    stateNames: ["flux along the field of", "flux across the field of", "regulator of"].map(
      (what) => `${what} ${p.name}`,
    ),
    start: { y: [set, 0, set], mode },
    network: [state, state + 1, state + 2],
    enter(next) {
      mode = next;
    },
    fold: () => {},
    unfold(w, y) {
      const yr = w.gr[out];
      const yi = w.gi[out];
      const dr = 1 + r * yr - x * yi;
      const di = r * yi + x * yr;
      const q = 1 / (dr * dr + di * di);
      const vr = (y[state] * dr + y[state + 1] * di) * q * mode.factor;
      const vi = (y[state + 1] * dr - y[state] * di) * q * mode.factor;
      w.vr[out] = vr;
      w.vi[out] = vi;
      w.ir[part] = yr * vr - yi * vi;
      w.ii[part] = yr * vi + yi * vr;
    },
    rate(w, y, rate) {
      const field = Math.min(ceiling, Math.max(0, wanted(w, y)));
      rate[state] = (field - y[state] + demagnetises * w.ii[part]) / source.fieldTime_s;
      rate[state + 1] = (-y[state + 1] - demagnetises * w.ir[part]) / source.fieldTime_s;
      rate[state + 2] = (field - y[state + 2]) / memory_s;
    },
    begin(w, y) {
      const before = [y[state], y[state + 1]];
      steadyOn(w.gr[out], w.gi[out], y);
      return Math.hypot(y[state] - before[0], y[state + 1] - before[1]) / set;
    },
    guards: (of) => events.guards(of),
    guardValues(w, y, values, offset) {
      const field = wanted(w, y);
      if (mode.field === "regulated") values[offset] = field - ceiling;
      if (mode.field === "at its ceiling") values[offset] = field - ceiling * (1 - BOUNCE);
      if (mode.field === "shut") values[offset] = field - ceiling * BOUNCE;
      if (mode.field === "regulated") values[offset + 1] = field;
    },
    scheduled: events.scheduled,
    reduce: (event, _, of) => events.reduce(event.name, of),
    power(w, y) {
      const given_W = mode.factor * (y[state] * w.ir[part] + y[state + 1] * w.ii[part]);
      return { ...lostInSeries(w, part, r), given_W };
    },
    scripted: events.scripted,
  };

  /** Steady on an admittance: Ef = V0 |N|, V = Ef/N with N = 1 + (R + j Xs) Y, E' = V (1 + (R + j X') Y). */
  function steadyOn(yr: number, yi: number, y: number[]): void {
    const nr = 1 + r * yr - source.synchronous_ohm * yi;
    const ni = r * yi + source.synchronous_ohm * yr;
    const field = Math.min(ceiling, set * Math.hypot(nr, ni));
    const q = field / (nr * nr + ni * ni);
    const dr = 1 + r * yr - x * yi;
    const di = r * yi + x * yr;
    y[state] = q * (nr * dr + ni * di);
    y[state + 1] = q * (nr * di - ni * dr);
    y[state + 2] = field;
  }
}

/** The ends of the field as events: its rate bends there, and the story should tell it. */
function fieldEvents(name: string) {
  const steps = voltageSteps(name);
  const reaches = eventName(name, "field reaches its ceiling");
  const leaves = eventName(name, "field leaves its ceiling");
  const shuts = eventName(name, "field is shut");
  const returns = eventName(name, "field returns");
  const guard = (what: string, direction: PartGuard["direction"]): PartGuard => ({
    name: what,
    direction,
    level: true,
    electrical: true,
  });
  const regulated = [guard(reaches, "rising"), guard(shuts, "falling")];
  const atCeiling = [guard(leaves, "falling")];
  const shut = [guard(returns, "rising")];
  return {
    scheduled: steps.scheduled,
    scripted: steps.scripted,
    guards({ field }: GeneratorMode): readonly PartGuard[] {
      if (field === "regulated") return regulated;
      return field === "shut" ? shut : atCeiling;
    },
    reduce(event: string, of: GeneratorMode): GeneratorMode {
      if (event === steps.changes) return steps.next(of);
      if (event === reaches) return { ...of, field: "at its ceiling" };
      return { ...of, field: event === shuts ? "shut" : "regulated" };
    },
  };
}
