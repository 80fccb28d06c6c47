import type { Event } from "@startgap/ode";
import type { Impedance } from "./conventions.ts";
import type { GeneratorSource } from "./generator.ts";
import type { InverterSource } from "./inverter.ts";
import { eventName, lostInSeries, type PartModel, type Placement, plain } from "./model.ts";
import type { Script, VoltageStep } from "./script.ts";

/** A stiff sinusoidal source behind a fixed loop impedance, unless `source` says what else it is. */
export interface SupplyParameters extends Impedance {
  readonly is: "supply";
  readonly name: string;
  /** Open-circuit rms voltage. */
  readonly voltage_V: number;
  readonly frequency_Hz: number;
  /**
   * A generator: the impedance is its resistance and transient reactance. An inverter: the impedance is only
   * the estimate V/I_limit, for whoever does not follow the limit itself (fault currents).
   */
  readonly source?: GeneratorSource | InverterSource;
}

export interface SupplyMode {
  /** Open-circuit voltage over the stated one. */
  readonly factor: number;
  /** What is still to come. */
  readonly steps: readonly VoltageStep[];
}

/**
 * Thevenin source: V_out = E/(1 + ZY). Its current and the phase reference are the supply's own. A story may
 * step its voltage at known times: a dip, an interruption, a low line.
 *
 * Limitation: an interruption is a source of 0 V behind its impedance. Motors do not feed back, so what they
 * generate for the first cycles after it is left out.
 */
export function supplyModel(p: SupplyParameters, place: Placement): PartModel<SupplyMode> {
  const [out] = place.out;
  const { r_ohm: r, x_ohm: x } = p;
  const steps = voltageSteps(p.name);
  let e = p.voltage_V;
  return {
    ...plain,
    start: { y: [], mode: { factor: 1, steps: [] } },
    enter(mode) {
      e = p.voltage_V * mode.factor;
    },
    fold: () => {},
    unfold(w) {
      const yr = w.gr[out];
      const yi = w.gi[out];
      const dr = 1 + r * yr - x * yi;
      const di = r * yi + x * yr;
      const q = e / (dr * dr + di * di);
      w.vr[out] = dr * q;
      w.vi[out] = -di * q;
      w.ir[place.part] = (yr * dr + yi * di) * q;
      w.ii[place.part] = (yi * dr - yr * di) * q;
    },
    scheduled: steps.scheduled,
    reduce: (_, __, mode) => steps.next(mode),
    power: (w) => ({ ...lostInSeries(w, place.part, r), given_W: e * w.ir[place.part] }),
    scripted: steps.scripted,
  };
}

/** What a story does to the voltage of any kind of supply. */
export interface VoltageSteps {
  readonly changes: string;
  scheduled(mode: SupplyMode): readonly Event[];
  next<S extends SupplyMode>(mode: S): S;
  /** Steps at 0 s or before are in force at once; without any the voltage stays where it is. */
  scripted<S extends SupplyMode>(mode: S, script: Script): S;
}

export function voltageSteps(supply: string): VoltageSteps {
  const changes = eventName(supply, "voltage changes");
  return {
    changes,
    scheduled: ({ steps }) => (steps.length === 0 ? [] : [{ name: changes, t: steps[0].at_s }]),
    next: (mode) => ({ ...mode, factor: mode.steps[0].factor, steps: mode.steps.slice(1) }),
    scripted(mode, script) {
      const steps = script.supply ?? [];
      const before = steps.filter((step) => step.at_s <= 0);
      const factor = before.length > 0 ? before[before.length - 1].factor : mode.factor;
      return { ...mode, factor, steps: steps.slice(before.length) };
    },
  };
}
