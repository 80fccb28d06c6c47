type Schema = { readonly [key: string]: unknown };

const annotations = new Set(["$schema", "title", "description", "examples"]);

/**
 * Where a value breaks a JSON Schema (draft 2020-12), of the keywords that the cabinet's schema uses.
 * Written from the specification alone; throws on a keyword that it does not know.
 */
export function schemaErrors(schema: Schema, value: unknown, path = "$"): string[] {
  return Object.entries(schema).flatMap(([keyword, rule]) => {
    if (annotations.has(keyword)) return [];
    const check = keywords[keyword];
    if (check === undefined) throw new RangeError(`unknown keyword: ${keyword}`);
    return check(rule, value, path, schema);
  });
}

type Check = (rule: unknown, value: unknown, path: string, schema: Schema) => string[];

const when = (broken: boolean, text: string): string[] => (broken ? [text] : []);
const isObject = (value: unknown): value is Schema =>
  typeof value === "object" && value !== null && !Array.isArray(value);
const passes = (schema: unknown, value: unknown): boolean =>
  schemaErrors(schema as Schema, value).length === 0;
const codePoints = (text: string): number => [...text].length;

function typeOf(value: unknown): string {
  if (value === null) return "null";
  return Array.isArray(value) ? "array" : typeof value;
}

const keywords: Readonly<Record<string, Check>> = {
  type: (rule, value, path) => when(typeOf(value) !== rule, `${path}: not ${rule}`),
  enum: (rule, value, path) => when(!(rule as unknown[]).includes(value), `${path}: not one of ${rule}`),
  minLength: (rule, value, path) =>
    when(typeof value === "string" && codePoints(value) < (rule as number), `${path}: too short`),
  maxLength: (rule, value, path) =>
    when(typeof value === "string" && codePoints(value) > (rule as number), `${path}: too long`),
  pattern: (rule, value, path) =>
    when(
      typeof value === "string" && !new RegExp(rule as string, "u").test(value),
      `${path}: not like ${rule}`,
    ),
  minimum: (rule, value, path) =>
    when(typeof value === "number" && value < (rule as number), `${path}: too low`),
  maximum: (rule, value, path) =>
    when(typeof value === "number" && value > (rule as number), `${path}: too high`),
  minItems: (rule, value, path) =>
    when(Array.isArray(value) && value.length < (rule as number), `${path}: too few`),
  maxItems: (rule, value, path) =>
    when(Array.isArray(value) && value.length > (rule as number), `${path}: too many`),
  items: (rule, value, path) =>
    Array.isArray(value) ? value.flatMap((one, i) => schemaErrors(rule as Schema, one, `${path}[${i}]`)) : [],
  prefixItems: (rule, value, path) =>
    Array.isArray(value)
      ? (rule as Schema[]).flatMap((one, i) =>
          i < value.length ? schemaErrors(one, value[i], `${path}[${i}]`) : [],
        )
      : [],
  properties: (rule, value, path) =>
    isObject(value)
      ? Object.entries(rule as Record<string, Schema>).flatMap(([key, one]) =>
          Object.hasOwn(value, key) ? schemaErrors(one, value[key], `${path}.${key}`) : [],
        )
      : [],
  required: (rule, value, path) =>
    isObject(value)
      ? (rule as string[]).filter((key) => !Object.hasOwn(value, key)).map((key) => `${path}.${key}: missing`)
      : [],
  additionalProperties(rule, value, path, schema) {
    if (rule !== false) throw new RangeError("only additionalProperties: false is known");
    if (!isObject(value)) return [];
    const known = Object.keys(schema.properties as object);
    return Object.keys(value)
      .filter((key) => !known.includes(key))
      .map((key) => `${path}.${key}: unknown`);
  },
  anyOf: (rule, value, path) =>
    when(!(rule as unknown[]).some((one) => passes(one, value)), `${path}: none fits`),
  oneOf: (rule, value, path) =>
    when((rule as unknown[]).filter((one) => passes(one, value)).length !== 1, `${path}: not just one fits`),
  not: (rule, value, path) => when(passes(rule, value), `${path}: must not`),
};
