/**
 * A fuse element as a sum of first-order thermal terms driven by the square of the current:
 *
 *     dx_k/dt = (a_k (I/I_inf)^2 - x_k) / tau_k,   a_k >= 0,  sum a_k = 1,  melts when sum x_k reaches 1.
 */
export interface MeltTerms {
  /** I_inf: the current that would just melt it after an unlimited time. */
  readonly minimumFusing_A: number;
  /** a_k, shares that sum to 1. */
  readonly share: readonly number[];
  /** tau_k, ascending. */
  readonly tau_s: readonly number[];
}
