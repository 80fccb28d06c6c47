import { el, fill, say } from "../dom.ts";
import { endStep } from "../state/history.ts";
import { removePart, rename } from "./edits.ts";
import { type Editing, type Field, rowOf, showText } from "./field.ts";
import { fieldFor, membersOf, smallButton } from "./group.ts";
import { type IssueMap, isInside, issueWords } from "./issues.ts";
import { type Path, pathText, wordOf } from "./raw.ts";
import { referencesTo } from "./references.ts";
import { isJson, type Schema } from "./schema.ts";

export interface PartCard {
  readonly root: HTMLDetailsElement;
  show(part: unknown, issues: IssueMap, depth: number): void;
}

/** One part of the cabinet: a line that tells it, and its figures once opened. */
export function partCard(editing: Editing, index: number, schemas: ReadonlyMap<string, Schema>): PartCard {
  const name = el("span", { class: "part-name", dir: "auto" });
  const facts = el("span", { class: "part-facts soft", dir: "auto" });
  const mark = el("span", { class: "part-mark" });
  const body = el("div", { class: "part-body" });
  const place = pathText(["parts", index]);
  const root = el(
    "details",
    { class: "part", "data-place": place },
    el("summary", {}, name, " ", facts, " ", mark),
    body,
  );
  let latest: { readonly part: unknown; readonly issues: IssueMap } | null = null;
  let inner: Field | null = null;
  const showBody = (): void => {
    if (!root.open || latest === null) return;
    inner ??= bodyOf(editing, index, schemas, body);
    inner.show(latest.part, latest.issues);
  };
  root.addEventListener("toggle", showBody);
  return {
    root,
    show(part, issues, depth) {
      latest = { part, issues };
      say(name, wordOf(part, "name") || "(no name)");
      say(facts, factsOf(part));
      const count = [...issues].filter(([path]) => isInside(path, place)).flatMap(([, own]) => own).length;
      say(mark, count === 0 ? "" : `${count} to put right`);
      root.style.setProperty("--depth", String(Math.min(depth, 6)));
      showBody();
    },
  };
}

/** What tells a part apart from others of its kind, in a few words. */
function factsOf(part: unknown): string {
  if (!isJson(part)) return "not a part";
  const plate = isJson(part.nameplate) ? part.nameplate : part;
  const figures = ["power", "conductor", "length", "rating", "delay", "coil", "voltage", "faultCurrent"]
    .map((key) => plate[key])
    .filter((value) => typeof value === "string")
    .slice(0, 2);
  return [wordOf(part, "is"), ...figures].join(", ");
}

/** The figures of a part whose kind may change with undo: made anew when it does. */
function bodyOf(
  editing: Editing,
  index: number,
  schemas: ReadonlyMap<string, Schema>,
  body: HTMLElement,
): Field {
  const path: Path = ["parts", index];
  const wrong = el("div", { class: "wrong" });
  const title = nameField(editing, index);
  const remove = smallButton("Remove this part", "Remove this part", () => removePart(editing.store, index));
  const slot = el("div");
  fill(body, wrong, title.root, slot, el("div", { class: "part-tools" }, remove));
  let kind: string | null = null;
  let members: Field | null = null;
  let kindPick: Field | null = null;
  return {
    root: body,
    show(part, issues) {
      const is = wordOf(part, "is");
      if (is !== kind || members === null) {
        kind = is;
        const schema = schemas.get(is);
        members = membersOf(editing, path, schema, ["name", "is"]);
        kindPick = schema === undefined ? kindField(editing, path, schemas) : null;
        fill(slot, kindPick?.root, members.root);
      }
      title.show(isJson(part) ? part.name : "", issues);
      kindPick?.show(is, issues);
      members.show(part, issues);
      remove.hidden = is === "supply";
      const own = issues.get(pathText(path)) ?? [];
      fill(wrong, ...own.map((issue) => el("p", {}, issueWords(issue))));
    },
  };
}

/** A kind that is not known can be put right. */
const kindField = (editing: Editing, path: Path, schemas: ReadonlyMap<string, Schema>): Field =>
  fieldFor(editing, [...path, "is"], { enum: [...schemas.keys()] }, "");

/** The name of a part: what refers to it follows while it is typed. */
function nameField(editing: Editing, index: number): Field {
  const path: Path = ["parts", index, "name"];
  const control = el("input", { type: "text", autocomplete: "off", spellcheck: false, dir: "auto" });
  const row = rowOf(
    path,
    { description: "What this part is called; no other part may have the same name." },
    control,
  );
  let places: readonly Path[] = [];
  control.addEventListener("focus", () => {
    places = referencesTo(editing.store.get().text, control.value);
  });
  control.addEventListener("input", () => {
    rename(editing.store, index, control.value, places, { place: pathText(path), typing: true });
  });
  control.addEventListener("change", endStep);
  return {
    root: row.root,
    show(value, issues) {
      showText(control, typeof value === "string" ? value : "");
      row.showIssues(issues);
    },
  };
}
