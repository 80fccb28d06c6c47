import { type AutotransformerParameters, autotransformerModel } from "./autotransformer.ts";
import { type CableParameters, cableModel } from "./cable.ts";
import { type ContactorParameters, contactorModel } from "./contactor.ts";
import type { ControlParameters } from "./controls.ts";
import { type DelayRelayParameters, delayRelayModel } from "./delayRelay.ts";
import { type FuseParameters, fuseModel } from "./fuse.ts";
import { GENERATOR_STATES, generatorModel } from "./generator.ts";
import { inverterModel } from "./inverter.ts";
import { type LoadParameters, loadModel } from "./load.ts";
import type { PartModel, Placement } from "./model.ts";
import { type MotorParameters, motorModel } from "./motor.ts";
import { type SupplyParameters, supplyModel } from "./supply.ts";
import { type TransformerParameters, transformerModel } from "./transformer.ts";

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
  /** What carries no power and decides what closes; none when absent. */
  readonly controls?: readonly ControlParameters[];
}

/** The table of parts: the one place besides its own file that a new part touches. */
export function modelOf(p: PartParameters, place: Placement): PartModel {
  switch (p.is) {
    case "supply":
      return sourceModel(p, place);
    case "cable":
      return cableModel(p, place);
    case "fuse":
      return fuseModel(p, place) as PartModel;
    case "autotransformer":
      return autotransformerModel(p, place);
    case "transformer":
      return transformerModel(p, place);
    case "contactor":
      return contactorModel(p, place) as PartModel;
    case "delay relay":
      return delayRelayModel(p, place) as PartModel;
    case "load":
      return loadModel(p, place);
    case "motor":
      return motorModel(p, place) as PartModel;
  }
}

function sourceModel(p: SupplyParameters, place: Placement): PartModel {
  if (p.source?.is === "generator") return generatorModel(p, p.source, place) as PartModel;
  if (p.source?.is === "inverter") return inverterModel(p, p.source, place) as PartModel;
  return supplyModel(p, place) as PartModel;
}

/** How many states a part owns; known before its model is made. */
export function statesOf(p: PartParameters): number {
  if (p.is === "motor") return 1;
  if (p.is === "supply") return p.source?.is === "generator" ? GENERATOR_STATES : 0;
  return p.is === "fuse" ? (p.melt?.share.length ?? 0) : 0;
}

/** No-load voltages at a part's outputs, from the one it is fed with. */
export function outputs_V(p: PartParameters, fed_V: number): readonly number[] {
  if (p.is === "supply") return [p.voltage_V];
  if (p.is === "transformer") return [(fed_V * p.windings_V[1]) / p.windings_V[0]];
  if (p.is === "autotransformer") {
    const first = (fed_V * p.windings_V[0]) / (p.windings_V[0] + p.windings_V[1]);
    return [first, fed_V - first, fed_V];
  }
  return p.is === "load" || p.is === "motor" ? [] : [fed_V];
}
