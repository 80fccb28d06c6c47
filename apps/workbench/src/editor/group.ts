import { el, fill } from "../dom.ts";
import { endStep } from "../state/history.ts";
import { put } from "./edits.ts";
import { choiceField, type Editing, type Field, rawField, textField } from "./field.ts";
import type { IssueMap } from "./issues.ts";
import { issueWords } from "./issues.ts";
import { labelOf } from "./labels.ts";
import { type Path, pathText } from "./raw.ts";
import { beginning, isJson, type Json, otherWays, type Schema, shapeOf } from "./schema.ts";

/** The piece of a form that edits a value of this shape, whatever it holds. */
export function fieldFor(
  editing: Editing,
  path: Path,
  schema: Schema | undefined,
  value: unknown,
  ...extra: readonly HTMLElement[]
): Field {
  const names = editing.partNames(path);
  if (names !== null)
    return choiceField(editing, path, schema, () => editing.partNames(path) ?? [], ...extra);
  const shape = shapeOf(schema, value);
  const tools = [...waysOf(editing, path, schema, value), ...extra];
  switch (shape.as) {
    case "text":
      return textField(editing, path, schema, shape.takesNumber, ...tools);
    case "choice":
      return choiceField(editing, path, schema, () => shape.schema.enum!, ...tools);
    case "raw":
      return rawField(editing, path, schema, ...tools);
    case "group":
      return framed(path, schema, membersOf(editing, path, shape.schema, []), tools);
    case "kinds":
      return framed(path, schema, kindsOf(editing, path, shape.schema), tools);
    case "fixed list":
      return framed(
        path,
        schema,
        listOf(editing, path, (i) => shape.items[i], null),
        tools,
      );
    case "list":
      return framed(
        path,
        schema,
        listOf(editing, path, () => shape.schema.items!, shape.schema),
        tools,
      );
  }
}

/** Tells whether a field still suits a value, or has to be made anew. */
const signatureOf = (schema: Schema | undefined, value: unknown): string => shapeOf(schema, value).as;

/** Buttons that state the same thing in another way: as text, as a list, or in detail. */
function waysOf(editing: Editing, path: Path, schema: Schema | undefined, value: unknown): HTMLElement[] {
  if (schema === undefined) return [];
  const byWords = new Map(otherWays(schema, value).map((way) => [wayWords(way), way]));
  return [...byWords].map(([words, way]) =>
    smallButton(words, `State ${labelOf(path[path.length - 1])} ${words}`, () => {
      put(editing.store, path, beginning(way));
    }),
  );
}

function wayWords(way: Schema): string {
  if (way.properties !== undefined || way.oneOf !== undefined) return "in detail";
  return way.items !== undefined || way.prefixItems !== undefined ? "as a list" : "as text";
}

export function smallButton(words: string, name: string, onClick: () => void): HTMLButtonElement {
  return el(
    "button",
    {
      type: "button",
      class: "small",
      "aria-label": name,
      on: {
        click: () => {
          endStep();
          onClick();
        },
      },
    },
    words,
  );
}

/** A fieldset around several fields, with what is wrong with the whole of them. */
function framed(path: Path, schema: Schema | undefined, inner: Field, tools: readonly HTMLElement[]): Field {
  const place = pathText(path);
  const wrong = el("div", { class: "wrong" });
  const root = el(
    "fieldset",
    { "data-place": place, tabindex: -1, title: schema?.description ?? null },
    el("legend", {}, labelOf(path[path.length - 1]), ...tools),
    wrong,
    inner.root,
  );
  return {
    root,
    show(value, issues) {
      inner.show(value, issues);
      const own = issues.get(place) ?? [];
      root.classList.toggle("is-wrong", own.length > 0);
      fill(wrong, ...own.map((issue) => el("p", {}, issueWords(issue))));
    },
  };
}

/** The keys of an object that are there, each with its field; and a menu of those that could be. */
export function membersOf(
  editing: Editing,
  path: Path,
  schema: Schema | undefined,
  hidden: readonly string[],
): Field {
  const properties = schema?.properties ?? {};
  const needed = schema?.required ?? [];
  const fields = el("div", { class: "fields" });
  const more = menuOfMissing(editing, path, properties);
  let signature = "";
  let members: readonly { readonly key: string; readonly field: Field }[] = [];
  const make = (record: Json, keys: readonly string[]): void => {
    members = keys.map((key) => {
      const tools = needed.includes(key) && key in properties ? [] : [removal(editing, [...path, key])];
      return { key, field: fieldFor(editing, [...path, key], properties[key], record[key], ...tools) };
    });
    replaceKeepingFocus(
      fields,
      members.map(({ field }) => field.root),
    );
  };
  return {
    root: el("div", { class: "members" }, fields, more.root),
    show(value, issues) {
      const record = isJson(value) ? value : {};
      const keys = shownKeys(record, properties, needed, hidden);
      const now = keys.map((key) => `${key} ${signatureOf(properties[key], record[key])}`).join("|");
      if (now !== signature) make(record, keys);
      signature = now;
      for (const { key, field } of members) field.show(record[key], issues);
      more.show(Object.keys(properties).filter((key) => !keys.includes(key) && !hidden.includes(key)));
    },
  };
}

/** In the order of the schema, then what it does not know. */
function shownKeys(
  record: Json,
  properties: Readonly<Record<string, Schema>>,
  needed: readonly string[],
  hidden: readonly string[],
): string[] {
  const known = Object.keys(properties).filter((key) => Object.hasOwn(record, key) || needed.includes(key));
  const unknown = Object.keys(record).filter((key) => !Object.hasOwn(properties, key));
  return [...known, ...unknown].filter((key) => !hidden.includes(key));
}

const removal = (editing: Editing, path: Path): HTMLButtonElement =>
  smallButton("×", `Remove ${labelOf(path[path.length - 1])}`, () => put(editing.store, path, undefined));

/** A field that is made anew while it has the focus gives it to the one in its place. */
function replaceKeepingFocus(parent: HTMLElement, children: readonly HTMLElement[]): void {
  const focused = document.activeElement;
  const place = focused !== null && parent.contains(focused) ? focused.getAttribute("data-place") : null;
  fill(parent, ...children);
  if (place === null) return;
  parent.querySelector<HTMLElement>(`[data-place="${CSS.escape(place)}"]`)?.focus();
}

function menuOfMissing(editing: Editing, path: Path, properties: Readonly<Record<string, Schema>>) {
  const where = labelOf(path[path.length - 1] ?? "file");
  const select = el("select", { class: "add", "aria-label": `Figure to add to ${where}` });
  const button = el("button", { type: "button", "aria-label": `Add to ${where}` }, "Add");
  const root = el("span", { class: "adding" }, select, " ", button);
  let offered: readonly string[] = [];
  button.addEventListener("click", () => {
    const key = offered[select.selectedIndex];
    if (key === undefined) return;
    endStep();
    put(editing.store, [...path, key], beginning(properties[key]));
    document.querySelector<HTMLElement>(`[data-place="${CSS.escape(pathText([...path, key]))}"]`)?.focus();
  });
  return {
    root,
    show(keys: readonly string[]): void {
      root.hidden = keys.length === 0;
      if (keys.join() !== offered.join() || select.options.length === 0) {
        offered = keys;
        const options = keys.map((key) => el("option", { title: properties[key].description }, labelOf(key)));
        fill(select, ...options);
      }
    },
  };
}

/** An object of one of several kinds: which one, and the figures of that kind. */
function kindsOf(editing: Editing, path: Path, schema: Schema): Field {
  const byName = new Map(schema.oneOf!.map((one) => [String(one.properties?.is?.enum?.[0]), one]));
  const root = el("div", { class: "members" });
  let shownKind: string | null = null;
  let inner: Field | null = null;
  const pick = choiceField(editing, [...path, "is"], schema.oneOf![0].properties?.is, () => [
    ...byName.keys(),
  ]);
  root.append(pick.root);
  return {
    root,
    show(value, issues) {
      const kind = isJson(value) ? String(value.is) : "";
      if (kind !== shownKind || inner === null) {
        shownKind = kind;
        inner?.root.remove();
        inner = membersOf(editing, path, byName.get(kind), ["is"]);
        root.append(inner.root);
      }
      pick.show(isJson(value) ? value.is : undefined, issues);
      inner.show(value, issues);
    },
  };
}

/** Several of the same: windings, points of a curve. `growing` is the schema of a list that may change its length. */
function listOf(
  editing: Editing,
  path: Path,
  schemaAt: (index: number) => Schema | undefined,
  growing: Schema | null,
): Field {
  const fields = el("div", { class: "fields list" });
  let items: readonly Field[] = [];
  let signature = "";
  let length = 0;
  const add = smallButton("Add one", `Add to ${labelOf(path[path.length - 1])}`, () => {
    put(editing.store, [...path, length], beginning(schemaAt(length)!));
  });
  add.hidden = growing === null;
  return {
    root: el("div", { class: "members" }, fields, add),
    show(value, issues: IssueMap) {
      const list = Array.isArray(value) ? (value as readonly unknown[]) : [];
      length = list.length;
      const now = list.map((one, i) => signatureOf(schemaAt(i), one)).join("|");
      if (now !== signature) {
        items = list.map((one, i) => {
          const tools = growing === null ? [] : [removal(editing, [...path, i])];
          return fieldFor(editing, [...path, i], schemaAt(i), one, ...tools);
        });
        replaceKeepingFocus(
          fields,
          items.map(({ root }) => root),
        );
      }
      signature = now;
      list.forEach((one, i) => {
        items[i]?.show(one, issues);
      });
    },
  };
}
