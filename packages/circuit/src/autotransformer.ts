import type { Impedance, Place } from "./conventions.ts";
import { type PartModel, type Placement, plain } from "./model.ts";
import type { Excitation } from "./transformer.ts";
import type { Walk } from "./walk.ts";

/**
 * Two windings in series across the input; loads hang on one winding (a leg) or across both.
 * Leakage impedance is that of the pair as a two-winding transformer, referred to the first winding.
 */
export interface AutotransformerParameters extends Place, Impedance {
  readonly is: "autotransformer";
  readonly windings_V: readonly [number, number];
  /** Nameplate as a two-winding transformer. */
  readonly rating_VA: number;
  readonly excitation: Excitation;
}

/**
 * Two windings in series about a midpoint, by turns shares k1 = n1/(n1 + n2) and k2 = 1 - k1.
 *
 * Loads draw I1 from the first leg, I2 from the second and I12 across both. With no exciting current the
 * ampere-turns cancel, n1 Iw1 + n2 Iw2 = 0, where Iw1 = I - I1 and Iw2 = I - I2 (I without I12), so
 *
 *     I = k1 I1 + k2 I2        Iw1 = k2 (I2 - I1)
 *
 * and with the leakage Zw referred to the first winding, V1 - (n1/n2) V2 = Zw Iw1, V1 + V2 = V:
 *
 *     V1 = k1 V + z (I2 - I1)     V2 = k2 V - z (I2 - I1)     z = k2^2 Zw
 *
 * Putting I1 = Y1 V1, I2 = Y2 V2 gives V1/V = (k1 + z Y2)/(1 + z (Y1 + Y2)), the 2 by 2 solve below.
 * For equal windings z = Zw/4: a leg sees a quarter of the loop's and a quarter of the winding's impedance.
 * The exciting branch stands across the whole input.
 *
 * Checked by packages/circuit/test/autotransformer.test.ts and tests/independent/nodal.
 */
export function autotransformerModel(p: AutotransformerParameters, place: Placement): PartModel<null> {
  const { part, at } = place;
  const [first, second, both] = place.out;
  const k1 = p.windings_V[0] / (p.windings_V[0] + p.windings_V[1]);
  const k2 = 1 - k1;
  const zr = k2 * k2 * p.r_ohm;
  const zx = k2 * k2 * p.x_ohm;
  const g0 = p.excitation.conductance_S;
  const b0 = p.excitation.susceptance_S;

  /** The first leg's voltage per volt of input; the second's is the rest of it. */
  const solve = (w: Walk): void => {
    const y1r = w.gr[first];
    const y1i = w.gi[first];
    const y2r = w.gr[second];
    const y2i = w.gi[second];
    const dr = 1 + zr * (y1r + y2r) - zx * (y1i + y2i);
    const di = zr * (y1i + y2i) + zx * (y1r + y2r);
    const q = 1 / (dr * dr + di * di);
    const nr = k1 + zr * y2r - zx * y2i;
    const ni = zr * y2i + zx * y2r;
    w.fr[part] = (nr * dr + ni * di) * q;
    w.fi[part] = (ni * dr - nr * di) * q;
  };

  return {
    ...plain,
    fold(w) {
      solve(w);
      const y1r = w.gr[first];
      const y1i = w.gi[first];
      const y2r = w.gr[second];
      const y2i = w.gi[second];
      const u1r = w.fr[part];
      const u1i = w.fi[part];
      const u2r = 1 - u1r;
      const u2i = -u1i;
      w.gr[at] += k1 * (y1r * u1r - y1i * u1i) + k2 * (y2r * u2r - y2i * u2i) + w.gr[both] + g0;
      w.gi[at] += k1 * (y1r * u1i + y1i * u1r) + k2 * (y2r * u2i + y2i * u2r) + w.gi[both] - b0;
    },
    unfold(w) {
      const vr = w.vr[at];
      const vi = w.vi[at];
      const y1r = w.gr[first];
      const y1i = w.gi[first];
      const y2r = w.gr[second];
      const y2i = w.gi[second];
      const v1r = w.fr[part] * vr - w.fi[part] * vi;
      const v1i = w.fr[part] * vi + w.fi[part] * vr;
      const v2r = vr - v1r;
      const v2i = vi - v1i;
      w.vr[first] = v1r;
      w.vi[first] = v1i;
      w.vr[second] = v2r;
      w.vi[second] = v2i;
      w.vr[both] = vr;
      w.vi[both] = vi;
      const br = w.gr[both] + g0;
      const bi = w.gi[both] - b0;
      w.ir[part] = k1 * (y1r * v1r - y1i * v1i) + k2 * (y2r * v2r - y2i * v2i) + br * vr - bi * vi;
      w.ii[part] = k1 * (y1r * v1i + y1i * v1r) + k2 * (y2r * v2i + y2i * v2r) + br * vi + bi * vr;
    },
    power(w) {
      const winding = windingCurrent(w, first, second, k2);
      const idle = g0 * (w.vr[at] ** 2 + w.vi[at] ** 2);
      return { lost_W: p.r_ohm * winding ** 2 + idle, shaft_W: 0, stored_W: 0 };
    },
  };
}

/** |Iw1| = k2 |I2 - I1|, the current in the first winding, from the leg voltages and loads. */
function windingCurrent(w: Walk, first: number, second: number, k2: number): number {
  const real = (node: number): number => w.gr[node] * w.vr[node] - w.gi[node] * w.vi[node];
  const imag = (node: number): number => w.gr[node] * w.vi[node] + w.gi[node] * w.vr[node];
  return k2 * Math.hypot(real(second) - real(first), imag(second) - imag(first));
}
