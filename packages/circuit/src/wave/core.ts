import type { Excitation } from "../transformer.ts";

/** A smooth, odd, single-valued magnetising law: current of a flux linkage, and its slope. */
export interface Core {
  /** Flux linkage at the peak of nominal voltage, V s. */
  readonly nominal_Vs: number;
  current(flux_Vs: number): number;
  slope(flux_Vs: number): number;
  /** Both at once: writes the current and the slope. */
  at(flux_Vs: number, into: Float64Array): void;
}

export interface CoreShape {
  /** Flux at the knee, times nominal peak flux. */
  readonly knee: number;
  /** Saturated (air-core) inductance, per unit of the winding's base inductance. */
  readonly air_pu: number;
}

/**
 * Small dry transformers work near their knee. With an air-core reactance of a fifth, the worst switch-on with
 * 0.7 of residual flux peaks at about ten times rated current, the usual figure (common practice, no source).
 */
export const USUAL_CORE: CoreShape = { knee: 1.2, air_pu: 0.2 };
/** Width of the bend, times nominal peak flux. */
const BEND = 0.04;
/** Where no exciting current is stated: the unsaturated core takes this part of rated current. */
const FAINT = 1e-4;

/**
 * Magnetising law of a core from its idle current and a knee:
 *
 *     i = lambda/L0 + (1/La - 1/L0) B(|lambda| - knee) sign(lambda)
 *     B(x) = (x + sqrt(x^2 + w^2))/2 - B(-knee)
 *
 * two straight lines (unsaturated L0, air-core La) joined by a hyperbola, the usual smooth form of the
 * two-slope curve. L0 is what gives the rms exciting current of the envelope's susceptance at nominal
 * voltage when the flux is sinusoidal: the bend's share at nominal flux is taken off by a fixed point. Where
 * the envelope has no exciting branch, only what lies above the knee is left.
 *
 * @param nominal_V no-load rms voltage across the exciting branch
 * @param rating_VA rating that makes the base inductance V^2/(VA omega)
 * @returns null when the transformer has no rating: its impedance was given outright, and nothing is added
 *
 * Source of the form: J. R. Lucas, piecewise two-slope saturation with a smooth join, any transients text
 * (from memory). Checked by packages/circuit/test/wave/core.test.ts.
 */
export function coreOf(
  excitation: Excitation,
  nominal_V: number,
  rating_VA: number,
  omega: number,
  shape: CoreShape = USUAL_CORE,
): Core | null {
  if (!Number.isFinite(rating_VA) || rating_VA <= 0) return null;
  const peak = (Math.SQRT2 * nominal_V) / omega;
  const knee = shape.knee * peak;
  const w = BEND * peak;
  const air = (shape.air_pu * nominal_V ** 2) / (rating_VA * omega);
  const stated = excitation.susceptance_S > 0;
  const wanted = stated ? excitation.susceptance_S * nominal_V : 0;
  const bend = (x: number): number => (x + Math.sqrt(x * x + w * w)) / 2;
  const rest = bend(-knee);
  const saturated = (flux: number): number => bend(Math.abs(flux) - knee) - rest;
  const steep = 1 / air;
  let shallow = stated ? excitation.susceptance_S * omega : FAINT / (air / shape.air_pu);
  for (let count = 0; stated && count < 50; count++) {
    const rms = rmsCurrent((flux) => shallow * flux + (steep - shallow) * saturated(flux), peak);
    shallow *= Math.min(2, Math.max(0.5, wanted / rms));
  }
  const half = (steep - shallow) / 2;
  const both = new Float64Array(2);
  const at = (flux: number, into: Float64Array): void => {
    const x = Math.abs(flux) - knee;
    const root = Math.sqrt(x * x + w * w);
    const bent = half * (x + root - 2 * rest);
    into[0] = shallow * flux + (flux < 0 ? -bent : bent);
    into[1] = shallow + half * (1 + x / root);
  };
  const read = (what: number, flux: number): number => {
    at(flux, both);
    return both[what];
  };
  return {
    nominal_Vs: peak,
    current: (flux) => read(0, flux),
    slope: (flux) => read(1, flux),
    at,
  };
}

/** Rms over a quarter cycle of sinusoidal flux; 64 points of the trapezoid are exact to the bend's width. */
function rmsCurrent(current: (flux: number) => number, peak: number): number {
  const points = 64;
  let sum = 0;
  for (let k = 0; k <= points; k++) {
    const i = current(peak * Math.sin((Math.PI / 2) * (k / points)));
    sum += (k === 0 || k === points ? 0.5 : 1) * i * i;
  }
  return Math.sqrt(sum / points);
}
