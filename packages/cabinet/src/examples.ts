import barnWorkshop from "../examples/barn-workshop.cabinet.json" with { type: "json" };
import iceShed from "../examples/ice-shed.cabinet.json" with { type: "json" };
import pumpPair from "../examples/pump-pair.cabinet.json" with { type: "json" };
import quarterHorse from "../examples/quarter-horse.cabinet.json" with { type: "json" };
import shopAir from "../examples/shop-air.cabinet.json" with { type: "json" };
import twoLegs from "../examples/two-legs.cabinet.json" with { type: "json" };
import type { CabinetFile } from "./file/cabinet.ts";
import { writeCabinet } from "./write.ts";

/** A cabinet to begin with. */
export interface Example {
  /** Short name, as the file is called: "ice-shed". */
  readonly key: string;
  readonly title: string;
  /** Text of the cabinet file. */
  readonly text: string;
}

const example = (key: string, file: CabinetFile & { readonly title: string }): Example => ({
  key,
  title: file.title,
  text: writeCabinet(file),
});

/** Invented settings, ready to be read; the first is the one that every guide begins with. */
export const examples: readonly Example[] = [
  example("ice-shed", iceShed),
  example("pump-pair", pumpPair),
  example("two-legs", twoLegs),
  example("barn-workshop", barnWorkshop),
  example("shop-air", shopAir),
  example("quarter-horse", quarterHorse),
];
