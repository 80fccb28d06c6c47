import { contactorModel } from "../contactor.ts";
import { delayRelayModel } from "../delayRelay.ts";
import type { PartModel } from "../model.ts";
import type { PartParameters } from "../parts.ts";
import type { SupplyParameters } from "../supply.ts";
import { cableWave } from "./waveCable.ts";
import { contactWave, sensedByContactor, sensedByRelay } from "./waveContact.ts";
import { fuseWave } from "./waveFuse.ts";
import { generatorWave } from "./waveGenerator.ts";
import { inverterWave } from "./waveInverter.ts";
import { loadWave } from "./waveLoad.ts";
import type { WaveModel, WavePlacement } from "./waveModel.ts";
import { motorWave } from "./waveMotor.ts";
import { supplyWave } from "./waveSupply.ts";
import { autotransformerWave, transformerWave } from "./waveTransformer.ts";

/** The table of parts in instantaneous form. */
export function waveModelOf(p: PartParameters, place: WavePlacement): WaveModel {
  switch (p.is) {
    case "supply":
      return sourceWave(p, place);
    case "cable":
      return cableWave(p, place);
    case "fuse":
      return fuseWave(p, place) as WaveModel;
    case "autotransformer":
      return autotransformerWave(p, place);
    case "transformer":
      return transformerWave(p, place);
    case "contactor": {
      const rules = contactorModel(p, place) as PartModel;
      return contactWave(p.name, rules, sensedByContactor(p, place), place) as WaveModel;
    }
    case "delay relay": {
      const rules = delayRelayModel(p, place) as PartModel;
      return contactWave(p.name, rules, sensedByRelay(p, place), place) as WaveModel;
    }
    case "load":
      return loadWave(p, place);
    case "motor":
      return motorWave(p, place) as WaveModel;
  }
}

function sourceWave(p: SupplyParameters, place: WavePlacement): WaveModel {
  if (p.source?.is === "generator") return generatorWave(p, p.source, place) as WaveModel;
  if (p.source?.is === "inverter") return inverterWave(p, p.source, place) as WaveModel;
  return supplyWave(p, place) as WaveModel;
}
