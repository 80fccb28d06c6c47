export type * from "./options.ts";
export type * from "./results.ts";
