export { type CasesOptions, caseKinds, cases } from "./cases.ts";
export type { DipEdges, DipEnd, DipMap, DipOutcome, NoDips } from "./dipResults.ts";
export { type DipOptions, dips, oneDip } from "./dips.ts";
export { dipSays } from "./dipWords.ts";
export type { CaseFinding, CaseKind, CasesReport, CaseTold } from "./results.ts";
