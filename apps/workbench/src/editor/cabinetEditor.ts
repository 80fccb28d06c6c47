import { el, fill } from "../dom.ts";
import { inNextFrame } from "../frames.ts";
import { endStep } from "../state/history.ts";
import type { SessionStore } from "../state/session.ts";
import { addPart } from "./edits.ts";
import { type Editing, textField } from "./field.ts";
import { issuesByPlace } from "./issues.ts";
import { type PartCard, partCard } from "./partCard.ts";
import { rawFile, rawParts, wordOf } from "./raw.ts";
import { namesFor, namesOf } from "./references.ts";
import { partSchemas, type Schema } from "./schema.ts";

/** Every figure of the cabinet, to be edited where it stands. */
export function cabinetEditor(store: SessionStore): HTMLElement {
  const editing: Editing = {
    store,
    partNames: (path) => namesFor(store.get().text, store.get().schema, path),
  };
  const title = textField(editing, ["title"], { description: "What this cabinet is, in a line." }, false);
  const list = el("div", { class: "parts" });
  const adder = adderOf(store);
  const form = el("div", { class: "cabinet-form" }, title.root, list, adder.root);
  const unread = el(
    "p",
    { class: "soft", hidden: true },
    "This text is no cabinet file as it stands. Put it right under File, or undo.",
  );
  let cards: PartCard[] = [];
  let schemas: ReadonlyMap<string, Schema> = new Map();
  const draw = inNextFrame(() => {
    const { text, issues, schema } = store.get();
    if (schema === null) return;
    const file = rawFile(text);
    form.hidden = file === null;
    unread.hidden = file !== null || text === "";
    if (file === null) return;
    if (schemas.size === 0) schemas = partSchemas(schema);
    const parts = rawParts(file);
    const byPlace = issuesByPlace(issues);
    while (cards.length < parts.length) cards = [...cards, partCard(editing, cards.length, schemas)];
    if (list.childElementCount !== parts.length)
      fill(list, ...cards.slice(0, parts.length).map(({ root }) => root));
    title.show(file.title, byPlace);
    parts.forEach((part, i) => {
      cards[i].show(part, byPlace, depthOf(parts, part));
    });
    adder.show([...schemas.keys()], parts);
  });
  store.watch((now, before) => {
    if (now.text !== before.text || now.issues !== before.issues || now.schema !== before.schema) draw();
  });
  draw();
  return el("div", {}, unread, form);
}

/** How many parts stand between a part and the supply; loops end where they began. */
function depthOf(parts: readonly unknown[], part: unknown): number {
  const byName = new Map(parts.map((one) => [wordOf(one, "name"), one]));
  const seen = new Set<unknown>();
  let depth = 0;
  for (let one = part; one !== undefined && !seen.has(one); one = byName.get(wordOf(one, "fedBy"))) {
    seen.add(one);
    depth += 1;
  }
  return depth - 1;
}

/** Adds a part: of what kind, and fed by what. */
function adderOf(store: SessionStore) {
  const kind = el("select", { "aria-label": "Kind of part to add" });
  const feeder = el("select", { "aria-label": "Fed by" });
  const button = el("button", { type: "button" }, "Add part");
  button.addEventListener("click", () => {
    endStep();
    const index = addPart(store, kind.value, feeder.value);
    if (index === null) return;
    requestAnimationFrame(() => openPart(index));
  });
  const offer = (select: HTMLSelectElement, words: readonly string[]): void => {
    const chosen = select.value;
    if ([...select.options].map((option) => option.value).join("|") === words.join("|")) return;
    fill(select, ...words.map((word) => el("option", { value: word }, word)));
    if (words.includes(chosen)) select.value = chosen;
  };
  return {
    root: el("div", { class: "adder" }, kind, el("span", {}, "fed by"), feeder, button),
    show(kinds: readonly string[], parts: readonly unknown[]): void {
      const hasSupply = parts.some((part) => wordOf(part, "is") === "supply");
      offer(
        kind,
        kinds.filter((one) => one !== "supply" || !hasSupply),
      );
      offer(feeder, namesOf(parts, store.get().schema, "feeding"));
    },
  };
}

/** Opens a part's figures and goes there. */
export function openPart(index: number): void {
  const card = document.querySelector<HTMLDetailsElement>(`.part[data-place="parts[${index}]"]`);
  if (card === null) return;
  card.open = true;
  card.querySelector<HTMLElement>("summary")?.focus();
  card.scrollIntoView({ block: "nearest" });
}
