import { el, fill, freshId, setAttributes } from "../dom.ts";
import { endStep } from "../state/history.ts";
import type { SessionStore } from "../state/session.ts";
import { put } from "./edits.ts";
import { type IssueMap, issueWords } from "./issues.ts";
import { labelOf } from "./labels.ts";
import { type Path, pathText } from "./raw.ts";
import type { Schema } from "./schema.ts";

/** One place of the file as a piece of a form. */
export interface Field {
  readonly root: HTMLElement;
  /** Shows a value of the same shape as the one it was made for. */
  show(value: unknown, issues: IssueMap): void;
}

/** What every field needs besides its place. */
export interface Editing {
  readonly store: SessionStore;
  /** Names that a key which names a part may take; null for any other key. */
  readonly partNames: (path: Path) => readonly string[] | null;
}

/** Label, control, what is wrong and what is accepted, tied together for those who cannot see it. */
export interface Row {
  readonly root: HTMLElement;
  readonly control: HTMLElement;
  readonly label: HTMLElement;
  showIssues(issues: IssueMap): void;
}

export function rowOf<T extends HTMLElement>(
  path: Path,
  schema: Schema | undefined,
  control: T,
  ...extra: readonly HTMLElement[]
): Row & { readonly control: T } {
  const id = freshId("field");
  const place = pathText(path);
  const label = el("label", { for: id }, labelOf(path[path.length - 1]));
  const help = el("p", { class: "help", id: `${id}-help` }, schema?.description ?? "");
  const wrong = el("div", { class: "wrong", id: `${id}-wrong` });
  setAttributes(control, { id, "data-place": place, "aria-describedby": `${id}-wrong ${id}-help` });
  const line = el("div", { class: "control" }, control, ...extra);
  const root = el("div", { class: "field" }, label, line, wrong, help);
  return {
    root,
    control,
    label,
    showIssues(issues) {
      const own = issues.get(place) ?? [];
      root.classList.toggle("is-wrong", own.length > 0);
      setAttributes(control, { "aria-invalid": own.length > 0 ? "true" : null });
      const words = own.map(issueWords);
      if (wrong.textContent !== words.join("")) fill(wrong, ...words.map((one) => el("p", {}, one)));
    },
  };
}

const plainNumber = /^[+-]?(\d+\.?\d*|\.\d+)$/;

/** A quantity, a number or a name, as text. */
export function textField(
  editing: Editing,
  path: Path,
  schema: Schema | undefined,
  takesNumber: boolean,
  ...extra: readonly HTMLElement[]
): Field {
  const long = (schema as { maxLength?: number } | undefined)?.maxLength ?? 0;
  const control =
    long > 200
      ? el("textarea", { rows: 2, spellcheck: false, dir: "auto" })
      : el("input", { type: "text", spellcheck: false, autocomplete: "off", dir: "auto" });
  const row = rowOf(path, schema, control, ...extra);
  control.addEventListener("input", () => {
    const text = control.value;
    const value = takesNumber && plainNumber.test(text.trim()) ? Number(text) : text;
    put(editing.store, path, value, { place: pathText(path), typing: true });
  });
  control.addEventListener("change", endStep);
  return {
    root: row.root,
    show(value, issues) {
      showText(control, typeof value === "string" || typeof value === "number" ? String(value) : "");
      row.showIssues(issues);
    },
  };
}

/** What is being typed is not written over with the same thing in other letters, as 0.50 with 0.5. */
export function showText(control: HTMLInputElement | HTMLTextAreaElement, text: string): void {
  const typing = document.activeElement === control && Number(control.value) === Number(text);
  if (control.value !== text && !(typing && text !== "" && control.value !== "")) control.value = text;
}

/** One of a few words, or the name of a part. What the file has and the list has not is shown all the same. */
export function choiceField(
  editing: Editing,
  path: Path,
  schema: Schema | undefined,
  choices: () => readonly (string | number)[],
  ...extra: readonly HTMLElement[]
): Field {
  const control = el("select");
  const row = rowOf(path, schema, control, ...extra);
  let offered: readonly (string | number)[] = [];
  control.addEventListener("change", () => {
    endStep();
    put(editing.store, path, offered[control.selectedIndex]);
  });
  return {
    root: row.root,
    show(value, issues) {
      const known = choices();
      const now = typeof value === "string" || typeof value === "number" ? value : "";
      const next = known.includes(now) ? known : [now, ...known];
      if (next.length !== offered.length || next.some((one, i) => one !== offered[i])) {
        offered = next;
        fill(control, ...offered.map((one) => el("option", {}, String(one))));
      }
      control.selectedIndex = offered.indexOf(now);
      row.showIssues(issues);
    },
  };
}

/** Anything that no form knows, as it stands in the file. */
export function rawField(
  editing: Editing,
  path: Path,
  schema: Schema | undefined,
  ...extra: readonly HTMLElement[]
): Field {
  const control = el("input", { type: "text", spellcheck: false, autocomplete: "off" });
  const row = rowOf(path, schema, control, ...extra);
  control.addEventListener("input", () => {
    put(editing.store, path, valueIn(control.value), { place: pathText(path), typing: true });
  });
  control.addEventListener("change", endStep);
  return {
    root: row.root,
    show(value, issues) {
      const text = value === undefined ? "" : JSON.stringify(value);
      if (document.activeElement !== control && control.value !== text) control.value = text;
      row.showIssues(issues);
    },
  };
}

function valueIn(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return text;
  }
}
