/** The published schema of the cabinet file, as far as a form needs to understand it. */
export interface Schema {
  readonly title?: string;
  readonly description?: string;
  readonly type?: string;
  readonly enum?: readonly (string | number)[];
  readonly properties?: Readonly<Record<string, Schema>>;
  readonly required?: readonly string[];
  readonly items?: Schema;
  readonly prefixItems?: readonly Schema[];
  readonly minItems?: number;
  readonly maxItems?: number;
  readonly anyOf?: readonly Schema[];
  readonly oneOf?: readonly Schema[];
  readonly examples?: readonly unknown[];
}

export type Json = Readonly<Record<string, unknown>>;

export const isJson = (value: unknown): value is Json =>
  typeof value === "object" && value !== null && !Array.isArray(value);

/** Schemas of the kinds of part, by what `is` says. */
export function partSchemas(file: unknown): ReadonlyMap<string, Schema> {
  const parts = (file as Schema | null)?.properties?.parts?.items?.oneOf ?? [];
  return new Map(parts.map((part) => [String(part.properties?.is?.enum?.[0]), part]));
}

/** How a value is edited. */
export type Shape =
  | { readonly as: "choice"; readonly schema: Schema }
  | { readonly as: "text"; readonly takesNumber: boolean }
  | { readonly as: "group"; readonly schema: Schema }
  | { readonly as: "kinds"; readonly schema: Schema }
  | { readonly as: "fixed list"; readonly items: readonly Schema[] }
  | { readonly as: "list"; readonly schema: Schema }
  /** Anything a file may hold that no form knows: shown as it stands in the file. */
  | { readonly as: "raw" };

/** The way to edit a value: by its schema, and of several ways the one that the value has taken. */
export function shapeOf(schema: Schema | undefined, value: unknown): Shape {
  const fitting = schema === undefined ? [] : alternatives(schema).filter((one) => fits(one, value));
  const chosen = fitting[0];
  if (chosen === undefined)
    return typeof value === "string" ? { as: "text", takesNumber: false } : { as: "raw" };
  if (chosen.enum !== undefined) return { as: "choice", schema: chosen };
  if (chosen.properties !== undefined) return { as: "group", schema: chosen };
  if (chosen.oneOf !== undefined) return { as: "kinds", schema: chosen };
  if (chosen.prefixItems !== undefined) return { as: "fixed list", items: chosen.prefixItems };
  if (chosen.items !== undefined) return { as: "list", schema: chosen };
  return { as: "text", takesNumber: alternatives(schema!).some((one) => one.type === "number") };
}

/** An object with properties may carry an `anyOf` of its own, which is no choice of types. */
const alternatives = (schema: Schema): readonly Schema[] =>
  schema.anyOf !== undefined && schema.properties === undefined
    ? schema.anyOf.flatMap(alternatives)
    : [schema];

function fits(schema: Schema, value: unknown): boolean {
  if (schema.properties !== undefined || schema.oneOf !== undefined) return isJson(value);
  if (schema.items !== undefined || schema.prefixItems !== undefined) return Array.isArray(value);
  return typeof value === "string" || typeof value === "number";
}

/** Other ways in which the same thing may be stated: an object where there is text now, or text for an object. */
export function otherWays(schema: Schema, value: unknown): readonly Schema[] {
  const all = alternatives(schema);
  return all.filter((one) => !fits(one, value) && one.type !== "number");
}

/** A value to begin with: the example of the schema, with what is needed inside. */
export function beginning(schema: Schema): unknown {
  const [first] = alternatives(schema);
  if (first.enum !== undefined) return first.enum[0];
  if (first.oneOf !== undefined) return beginning(first.oneOf[0]);
  if (first.properties !== undefined) return beginningOfGroup(first);
  if (first.prefixItems !== undefined) return first.prefixItems.map(beginning);
  if (first.items !== undefined)
    return Array.from({ length: first.minItems ?? 1 }, () => beginning(first.items!));
  return first.examples?.[0] ?? schema.examples?.[0] ?? "";
}

function beginningOfGroup(schema: Schema): Json {
  const way = schema.anyOf?.[0]?.required ?? [];
  const needed = [...new Set([...(schema.required ?? []), ...way])];
  return Object.fromEntries(
    needed.flatMap((key) => {
      const property = schema.properties![key];
      return property === undefined ? [] : [[key, beginning(property)]];
    }),
  );
}
