/** torque = atRest + (atFullSpeed - atRest) (omega/omega_sync)^2, or the first power for "linear". */
export interface LoadTorque {
  readonly atRest_Nm: number;
  readonly atFullSpeed_Nm: number;
  readonly shape: "square" | "linear";
}

/**
 * What the load asks of the shaft at a speed, N m. At rest it only resists; that is the shaft's business.
 *
 * @param speed_radps mechanical, 0 or more
 * @param synchronous_radps the motor's synchronous speed
 */
export function loadTorque_Nm(load: LoadTorque, speed_radps: number, synchronous_radps: number): number {
  const share = speed_radps / synchronous_radps;
  const rise = load.shape === "square" ? share * share : share;
  return load.atRest_Nm + (load.atFullSpeed_Nm - load.atRest_Nm) * rise;
}
