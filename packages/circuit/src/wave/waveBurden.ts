import type { CoilBurden, ContactorParameters } from "../contactor.ts";
import { pathThrough } from "../contacts.ts";
import { type Branch, branch, SHORTEST_s, steadyCurrent } from "./waveBranch.ts";
import { plainWave, type WaveModel, type WavePlacement } from "./waveModel.ts";

/**
 * What a coil draws, as the R-L of its inrush while its contactor is open and of its sealed burden once it is
 * closed. The current goes on as the armature comes in; its path, once open, takes the current away at once:
 * a pilot contact breaks an ampere without an arc worth following.
 */
export function burdenWave(
  p: ContactorParameters,
  burden: CoilBurden,
  contactor: number,
  place: WavePlacement,
): WaveModel<null> {
  const { part, at, state, omega_radps: omega } = place;
  const { closed } = place.contacts;
  const rated_V = p.coil?.rated_V ?? 0;
  const called = p.closedBy === undefined ? () => true : pathThrough(p.closedBy, place.contacts);
  const arm = (S_VA: number, powerFactor: number): Branch => {
    const z = rated_V ** 2 / S_VA;
    return branch(at, omega, z * powerFactor, (z * Math.sqrt(1 - powerFactor * powerFactor)) / omega);
  };
  const inrush = arm(burden.inrush_VA, burden.inrushPowerFactor);
  const sealed = arm(burden.sealed_VA, burden.sealedPowerFactor);
  const standing = (): Branch | null => (!called() ? null : closed[contactor] === 1 ? sealed : inrush);
  let now: Branch | null = null;
  return {
    ...plainWave,
    stateNames: [`coil current of ${p.name}`],
    states: ({ walk, angle_rad, fromRest }) => {
      const before = fromRest ? null : standing();
      return [before === null ? 0 : steadyCurrent(before, omega, walk.vr[at], walk.vi[at], angle_rad)];
    },
    fold(w, y) {
      now = standing();
      now?.fold(w, y[state]);
    },
    unfold(w, y) {
      w.into[part] = now === null ? 0 : y[state];
      w.rate[part] = now === null ? 0 : now.rate(w.v[at], y[state]);
    },
    rate(w, y, rate) {
      rate[state] = now === null ? -y[state] / SHORTEST_s : w.rate[part];
    },
    power(w, y) {
      if (now === null) return { lost_W: 0, shaft_W: 0, stored_W: 0 };
      const i = y[state];
      return { lost_W: now.r * i * i, shaft_W: 0, stored_W: now.l * i * w.rate[part] };
    },
  };
}
