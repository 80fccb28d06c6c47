import type { CircuitPlant, Mode, Script } from "@startgap/circuit";
import type { Standing } from "@startgap/ode";

/** Where a model stands: what it belongs to, and its first state. */
interface Slot {
  readonly key: string;
  readonly state: number;
}

/** Parts and controls by kind and name; what coils draw stands behind them, in the order of their contactors. */
function slotsOf({ layout, models }: CircuitPlant): Slot[] {
  const named = [...layout.circuit.parts, ...(layout.circuit.controls ?? [])];
  let state = 0;
  return models.map((model, i) => {
    const slot = { key: named[i] === undefined ? `coil ${i - named.length}` : keyOf(named[i]), state };
    state += model.stateNames.length;
    return slot;
  });
}

const keyOf = ({ is, name }: { readonly is: string; readonly name: string }): string => `${is}: ${name}`;

/**
 * The standing of a cabinet carried over to the same cabinet with one failure: every part of the same name and kind
 * keeps its speed, its heat and its mode, others begin as at switching on, and the failed link stands open.
 *
 * @param script what the story asks, the stuck contact included
 */
export function carriedOver(
  from: CircuitPlant,
  standing: Standing<Mode>,
  to: CircuitPlant,
  open: string | null,
  script: Script,
): Standing<Mode> {
  const fresh = switchedOn(to, open, script);
  const y = fresh.y.slice();
  const before = new Map(slotsOf(from).map((slot, i) => [slot.key, { ...slot, i }]));
  const mode = slotsOf(to).map(({ key, state }, i) => {
    const old = before.get(key);
    if (old === undefined || to.layout.circuit.parts[i]?.name === open) return fresh.mode[i];
    for (let k = 0; k < to.models[i].stateNames.length; k++) y[state + k] = standing.y[old.state + k];
    return standing.mode[old.i];
  });
  return { t: standing.t, y, mode: held(to, open, to.rescript(mode, script)) };
}

/** Cold, at rest, at 0 s, with the failed link open. */
export function switchedOn(to: CircuitPlant, open: string | null, script: Script): Standing<Mode> {
  const standing = to.start(script);
  return { ...standing, mode: held(to, open, standing.mode) };
}

const held = (to: CircuitPlant, open: string | null, mode: Mode): Mode =>
  mode.map((own, i) => (open !== null && to.layout.circuit.parts[i]?.name === open ? { melted: true } : own));
