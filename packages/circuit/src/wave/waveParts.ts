import { contactorLogic } from "../contactor.ts";
import { delayRelayLogic } from "../delayRelay.ts";
import type { PartParameters } from "../parts.ts";
import { contactWave } from "./waveContact.ts";
import { fuseWave } from "./waveFuse.ts";
import { cableWave, supplyWave } from "./waveLine.ts";
import { loadWave } from "./waveLoad.ts";
import type { WaveModel, WavePlacement } from "./waveModel.ts";
import { motorWave } from "./waveMotor.ts";
import { autotransformerWave, transformerWave } from "./waveTransformer.ts";

/** The table of parts in instantaneous form. */
export function waveModelOf(p: PartParameters, place: WavePlacement): WaveModel {
  switch (p.is) {
    case "supply":
      return supplyWave(p, place) as WaveModel;
    case "cable":
      return cableWave(p, place);
    case "fuse":
      return fuseWave(p, place) as WaveModel;
    case "autotransformer":
      return autotransformerWave(p, place);
    case "transformer":
      return transformerWave(p, place);
    case "contactor": {
      const sensed = p.coil === null ? place.at : place.nodeOf(p.coil.fedBy, p.coil.leg);
      return contactWave(p.name, contactorLogic(p), place, sensed) as WaveModel;
    }
    case "delay relay":
      return contactWave(p.name, delayRelayLogic(p, place.nominal_V), place, place.at) as WaveModel;
    case "load":
      return loadWave(p, place);
    case "motor":
      return motorWave(p, place) as WaveModel;
  }
}
