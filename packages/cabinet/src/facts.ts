import type { Conductor } from "./cable/conductor.ts";
import type { MotorType } from "./motor/nameplate.ts";

/** Heat classes of a small motor's winding. Source: NEMA MG 1 12.42. */
export const MOTOR_INSULATIONS = ["A", "B", "F"] as const;
export type MotorInsulation = (typeof MOTOR_INSULATIONS)[number];

/** Insulation systems of dry-type transformers by their temperature, degC. Source: NEMA ST 20, UL 506. */
export const TRANSFORMER_INSULATIONS_C = [105, 150, 180, 200, 220] as const;
export type TransformerInsulation_C = (typeof TRANSFORMER_INSULATIONS_C)[number];

export interface CableFacts {
  readonly is: "cable";
  /** Null for a cable whose impedance was stated outright. */
  readonly conductor: Conductor | null;
  readonly length_m: number | null;
  /** Temperature that insulation and terminals are good for; null when silent. */
  readonly insulation_C: 60 | 75 | 90 | null;
}

export interface FuseFacts {
  readonly is: "fuse";
  /** As the file names it; null for a drawn curve or none. */
  readonly className: string | null;
  readonly interruptingRating_A: number | null;
  /** Which wire it stands in: "neutral" for one in the wire that is tied to earth or to a midpoint. */
  readonly wire: "line" | "neutral";
  /** Air around it that its melt terms already count with. */
  readonly ambient_C: number;
}

export interface MotorFacts {
  readonly is: "motor";
  /** All null where the motor was stated by its circuit. */
  readonly power_W: number | null;
  readonly voltage_V: number | null;
  readonly type: MotorType | null;
  readonly serviceFactor: number | null;
  readonly insulation: MotorInsulation | null;
  /** Setting of its overload relay. */
  readonly overload_A: number | null;
  /** Null when the file does not say. */
  readonly builtInProtector: boolean | null;
}

export interface ContactorFacts {
  readonly is: "contactor";
  readonly rating_A: number | null;
  readonly lockedRotorRating_A: number | null;
}

export interface DelayRelayFacts {
  readonly is: "delay relay";
  readonly rating_A: number | null;
}

export interface TransformerFacts {
  readonly is: "transformer" | "autotransformer";
  readonly insulation_C: TransformerInsulation_C | null;
}

/** What a part says that its circuit does not need, and protection and heat are judged by. */
export type PartFacts =
  | CableFacts
  | FuseFacts
  | MotorFacts
  | ContactorFacts
  | DelayRelayFacts
  | TransformerFacts;
