import { leadingNumber } from "../text/number.ts";

/** How the numbers of one file are written; "unsure" when every comma may as well part thousands. */
export type Decimal = "point" | "comma" | "mixed" | "unsure";

/** Whether the text of a cell begins like a number. */
export function beginsNumber(cell: string): boolean {
  return /^\s*[+-]?[.,]?\d/.test(cell);
}

/** Which decimal mark the cells of a file use: "mixed" when some have a comma and others a point. */
export function decimalOf(cells: readonly string[]): Decimal {
  const commas = cells.filter((cell) => cell.includes(","));
  if (commas.length === 0) return "point";
  if (cells.some((cell) => cell.includes("."))) return "mixed";
  return commas.every(mayPartThousands) ? "unsure" : "comma";
}

/** A comma before exactly three digits, as in "1,200": 1.2 or 1200. "0,125" can only be the former. */
function mayPartThousands(cell: string): boolean {
  return /^\s*[+-]?[1-9]\d{0,2},\d{3}(?!\d)/.test(cell);
}

/** The number at the head of a cell and what follows it; null when there is none, or it may mean two. */
export function numberAndRest(cell: string, decimal: Decimal): { value: number; rest: string } | null {
  const comma = cell.includes(",");
  if (comma && (decimal !== "comma" || /,.*,/.test(cell))) return null;
  const text = cell.trim().replace(",", ".");
  const read = leadingNumber(text);
  if (read === null) return null;
  return { value: read.value, rest: text.slice(read.length).trim() };
}

/** What to say of a cell with a comma that cannot be read. */
export const COMMA_ADVICE: Readonly<Record<Decimal, string>> = {
  point: "",
  comma: ", with no comma but the decimal one",
  mixed: ", with points or commas for decimals, not both in one file",
  unsure: ", without a comma before three digits: it may part decimals or thousands",
};
