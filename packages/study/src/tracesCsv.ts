/** A quantity of a part over a told case's time: a story's, or a waveform's. */
interface Column {
  readonly quantity: string;
  readonly part: string;
  readonly unit: string;
  readonly values: Float64Array;
}

/** A case with its columns: a story, or a waveform study. */
export interface TracedCase {
  readonly case: string;
  readonly traces: { readonly time_s: Float64Array; readonly columns: readonly Column[] };
}

const suffix = (column: Column): string => (column.unit === "" ? "" : `_${column.unit}`);

/** "compressor 1 voltage_V" */
const heading = (column: Column): string => `${column.part} ${column.quantity}${suffix(column)}`;

/** RFC 4180: quoted where a comma, a quote or a line end asks for it. */
const cell = (text: string): string => (/[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text);

/** Times keep two digits more, so that neighbouring steps stay apart. */
const number = (value: number | undefined, digits = 7): string =>
  value !== undefined && Number.isFinite(value) ? `${Number(value.toPrecision(digits))}` : "";

function rows(story: TracedCase, headings: readonly string[]): string[] {
  const byHeading = new Map(story.traces.columns.map((column) => [heading(column), column.values]));
  const values = headings.map((h) => byHeading.get(h));
  return Array.from(story.traces.time_s, (t, i) =>
    [story.case, number(t, 9), ...values.map((v) => number(v?.[i]))].join(","),
  );
}

/**
 * The stories as one table, quoted as RFC 4180 says: `case`, `time_s`, then a column a quantity with its unit. Times stand as the
 * solver stepped; the two sides of a jump are two rows at the same time. What a story lacks stays empty.
 */
export function tracesCsv(stories: readonly TracedCase[]): string {
  const headings = [...new Set(stories.flatMap((story) => story.traces.columns.map(heading)))];
  const head = ["case", "time_s", ...headings].map(cell).join(",");
  return `${[head, ...stories.flatMap((story) => rows(story, headings))].join("\n")}\n`;
}
