import type { AutotransformerParameters } from "./autotransformer.ts";
import type { CableParameters } from "./cable.ts";
import type { ContactorParameters } from "./contactor.ts";
import type { DelayRelayParameters } from "./delayRelay.ts";
import type { FuseParameters } from "./fuse.ts";
import type { LoadParameters } from "./load.ts";
import type { MotorParameters } from "./motor.ts";
import type { SupplyParameters } from "./supply.ts";
import type { TransformerParameters } from "./transformer.ts";

/** Every part a cabinet can hold. */
export type PartParameters =
  | SupplyParameters
  | CableParameters
  | FuseParameters
  | AutotransformerParameters
  | TransformerParameters
  | ContactorParameters
  | DelayRelayParameters
  | LoadParameters
  | MotorParameters;

/** A tree of parts rooted at its one supply; every feeder stands before what it feeds. */
export interface Circuit {
  readonly title: string;
  readonly parts: readonly PartParameters[];
}
