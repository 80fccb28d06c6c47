import { html, type Inside, type Markup } from "./markup.ts";

/** A cell; the first of a row is its heading. */
export type Row = readonly Inside[];

export interface TableInput {
  /** What the table is, in a sentence. */
  readonly says: string;
  readonly head: readonly string[];
  readonly rows: readonly Row[];
  readonly class?: string;
}

/** Head of a table, repeated on every page that it runs over. */
export const headOf = (head: readonly string[]): Markup =>
  html`<thead><tr>${head.map((words) => html`<th scope="col">${words}</th>`)}</tr></thead>\n`;

/** What may be wider than a small screen scrolls by itself, by keyboard too; on paper it does not. */
export const scrolling = (says: string, content: Markup): Markup =>
  html`<div class="scrolls" tabindex="0" role="region" aria-label="${says}">\n${content}</div>\n`;

const rowOf = ([first, ...rest]: Row): Markup =>
  html`<tr><th scope="row">${first}</th>${rest.map((cell) => html`<td>${cell}</td>`)}</tr>\n`;

/** A table with a caption, headed columns and headed rows. */
export function table({ says, head, rows, class: kind = "" }: TableInput): Markup {
  return scrolling(
    says,
    html`<table class="${kind}">\n<caption>${says}</caption>\n${headOf(head)}<tbody>\n${rows.map(rowOf)}</tbody>\n</table>\n`,
  );
}

/** Facts by name, two columns and no head. */
export const facts = (rows: readonly Row[]): Markup =>
  html`<table class="facts"><tbody>\n${rows.map(rowOf)}</tbody></table>\n`;
