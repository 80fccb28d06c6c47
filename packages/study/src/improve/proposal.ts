import type { Cabinet, CabinetFile } from "@startgap/cabinet";

/** One change to a cabinet: the part, what it would be, in place of what, and the file with that alone changed. */
export interface Proposal {
  readonly part: string;
  /** As "8 AWG Cu", "5 kVA", "on the second leg". */
  readonly to: string;
  readonly from: string;
  readonly file: CabinetFile;
}

/** A part of a cabinet file, as it was written. */
export type PartSpec = { readonly [key: string]: unknown };

export const partsOf = ({ file }: Cabinet): readonly PartSpec[] => file.parts as readonly PartSpec[];

/** The file with some keys of one part set. */
export const withKeys = ({ file }: Cabinet, part: string, keys: PartSpec): CabinetFile => ({
  ...file,
  parts: (file.parts as readonly PartSpec[]).map((p) => (p.name === part ? { ...p, ...keys } : p)),
});
