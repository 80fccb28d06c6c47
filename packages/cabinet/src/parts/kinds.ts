import { autotransformer } from "./autotransformer.ts";
import { cable } from "./cable.ts";
import { contactor } from "./contactor.ts";
import { delayRelay } from "./delayRelay.ts";
import { fuse } from "./fuse.ts";
import type { PartKind } from "./kind.ts";
import { load } from "./load.ts";
import { lockOutTimer } from "./lockOutTimer.ts";
import { motor } from "./motor.ts";
import { pilotSwitch } from "./pilotSwitch.ts";
import { pressureSwitch } from "./pressureSwitch.ts";
import { receiver } from "./receiver.ts";
import { supply } from "./supply.ts";
import { transformer } from "./transformer.ts";

/** Every kind of part that a cabinet file may hold. */
export const kinds: readonly PartKind[] = [
  supply,
  cable,
  fuse,
  autotransformer,
  transformer,
  contactor,
  delayRelay,
  motor,
  load,
  receiver,
  pressureSwitch,
  pilotSwitch,
  lockOutTimer,
];

/** The kind of that name, or undefined. */
export const kindNamed = (name: unknown): PartKind | undefined => kinds.find((kind) => kind.is === name);
