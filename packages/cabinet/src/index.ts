export { type Example, examples } from "./examples.ts";
export type { Cabinet, CabinetFile, RangedQuantity, Relay } from "./file/cabinet.ts";
export { cabinetSchema } from "./file/schema.ts";
export type { Assumption, Derived, Grade } from "./grade.ts";
export { type Issue, issueText } from "./issue.ts";
export type { Range } from "./quantity.ts";
export { type CabinetRead, parseCabinet, readCabinet, variations } from "./read.ts";
export { writeCabinet } from "./write.ts";
