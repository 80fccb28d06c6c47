export { AMBIENT_C, ambientFactor, derated } from "./ambient.ts";
export type { CurvePoint, PointPlace } from "./curvePoints.ts";
export { type FitOptions, fitMelt, type MeltFit } from "./fitMelt.ts";
export { type ClassFuse, fuseClassNames, fuseFromClass } from "./fuseFromClass.ts";
export type { Gate } from "./gates.ts";
export { currentMargin, holdTime_s } from "./hold.ts";
export { type FuseBand, type FuseCurve, type FuseSpec, type MeltKind, meltOf } from "./meltOf.ts";
export { type CurveTable, readCurveCsv } from "./readCurveCsv.ts";
