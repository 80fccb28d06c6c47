export * from "./cable/index.ts";
export { type Example, examples } from "./examples.ts";
export type {
  CableFacts,
  ContactorFacts,
  DelayRelayFacts,
  FuseFacts,
  MotorFacts,
  MotorInsulation,
  PartFacts,
  TransformerFacts,
  TransformerInsulation_C,
} from "./facts.ts";
export type { Cabinet, CabinetFile, RangedQuantity, Relay } from "./file/cabinet.ts";
export type { Day, Enclosure, EnclosureMaterial, Mounting, Sun } from "./file/enclosure.ts";
export { cabinetSchema } from "./file/schema.ts";
export * from "./fuse/index.ts";
export type { Assumption, Derived, Grade } from "./grade.ts";
export { type Issue, issueText } from "./issue.ts";
export { CODE_LETTERS, codeLetterOf, codeLetterRange, usualCodeLetter } from "./motor/codeLetter.ts";
export {
  lockedRotorLimit_A,
  tableFullLoadCurrent_A,
  tableLockedRotorCurrent_A,
  usualFullLoadCurrent_A,
} from "./motor/currentTables.ts";
export { type Drive, type DriveSpec, driveOf } from "./motor/drive.ts";
export { motorFromNameplate, type PlateMotor } from "./motor/motorFromNameplate.ts";
export { MOTOR_TYPES, type MotorType, type Nameplate } from "./motor/nameplate.ts";
export { HORSEPOWER_W } from "./motor/standardPowers.ts";
export { nearestName } from "./nearest.ts";
export { isRange, quantityOf, type Range } from "./quantity.ts";
export { type CabinetRead, parseCabinet, readCabinet, variations } from "./read.ts";
export * from "./supply/index.ts";
export * from "./transformer/index.ts";
export { dimensions } from "./units.ts";
export { writeCabinet } from "./write.ts";
