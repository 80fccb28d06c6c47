/** torque = atRest + (atFullSpeed - atRest) (omega/omega_sync)^2, or the first power for "linear". */
export interface LoadTorque {
  readonly atRest_Nm: number;
  readonly atFullSpeed_Nm: number;
  readonly shape: "square" | "linear";
}
