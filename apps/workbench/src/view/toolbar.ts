import { el, fill } from "../dom.ts";
import { offerReport, offerTable } from "../report/offers.ts";
import { openFile, saveFile } from "../state/files.ts";
import { change, redo, undo } from "../state/history.ts";
import { type Kept, keptWork } from "../state/keep.ts";
import { fragmentOf } from "../state/link.ts";
import type { SessionStore } from "../state/session.ts";
import { disclosedMenu, type MenuLine } from "./menu.ts";

/** Where cabinets come from and go to, one step back and forth, and who is looking. */
export function toolbar(store: SessionStore): HTMLElement {
  const back = button("Undo", () => undo(store), "Ctrl+Z");
  const forth = button("Redo", () => redo(store), "Ctrl+Y");
  const client = button("Client view", () => {
    store.set({ view: store.get().view === "client" ? "builder" : "client" });
  });
  const show = (): void => {
    const { past, future, view } = store.get();
    back.disabled = past.length === 0;
    forth.disabled = future.length === 0;
    client.setAttribute("aria-pressed", String(view === "client"));
  };
  store.watch(show);
  show();
  listenForKeys(store);
  return el(
    "div",
    { class: "toolbar", role: "group", "aria-label": "Cabinet" },
    exampleMenu(store),
    keptMenu(store),
    openButton(store),
    button("Save", () => saveFile(store)),
    shareButton(store),
    button("Report", () => void offerReport(store), "For an inspector: one page that stands alone"),
    button("Curves", () => void offerTable(store), "Every curve of every case, for a spreadsheet"),
    back,
    forth,
    button("Print", () => window.print()),
    client,
  );
}

function button(words: string, onClick: () => void, hint?: string): HTMLButtonElement {
  return el("button", { type: "button", title: hint ?? null, on: { click: onClick } }, words);
}

/** Undo of a field's own typing is the browser's business only where the page's would do the same. */
function listenForKeys(store: SessionStore): void {
  document.addEventListener("keydown", (event) => {
    if (!(event.ctrlKey || event.metaKey) || event.altKey) return;
    const key = event.key.toLowerCase();
    const forth = key === "y" || (key === "z" && event.shiftKey);
    if (!forth && key !== "z") return;
    event.preventDefault();
    if (forth) redo(store);
    else undo(store);
  });
}

function exampleMenu(store: SessionStore): HTMLElement {
  const lines = (): MenuLine[] =>
    store.get().examples.map(({ title, text }) => ({
      words: title,
      choose: () =>
        change(
          store,
          { text, delay_s: null },
          { notice: "An invented example. Undo brings your cabinet back." },
        ),
    }));
  return disclosedMenu("Examples", lines);
}

/** What this browser has kept of other visits and windows. */
const keptMenu = (store: SessionStore): HTMLElement =>
  disclosedMenu("Earlier work", () =>
    keptWork().map((one) => ({
      words: lineOf(one),
      choose: () =>
        change(
          store,
          { text: one.text, delay_s: one.delay_s },
          { notice: "Restored. Undo brings the cabinet before it back." },
        ),
    })),
  );

function lineOf({ at, title }: Kept): string {
  const when = new Date(at).toLocaleString(undefined, { dateStyle: "medium", timeStyle: "short" });
  return `${when}: ${title.slice(0, 60)}`;
}

function openButton(store: SessionStore): HTMLElement {
  const input = el("input", {
    type: "file",
    accept: ".json,application/json",
    hidden: true,
    "data-open": true,
  });
  input.addEventListener("change", () => {
    const file = input.files?.[0];
    if (file !== undefined) void openFile(store, file);
    input.value = "";
  });
  return el(
    "span",
    {},
    button("Open …", () => input.click()),
    input,
  );
}

function shareButton(store: SessionStore): HTMLElement {
  const address = el("input", { type: "text", readonly: true, "aria-label": "Link to this cabinet" });
  const said = el("p", { class: "soft" });
  const close = el("button", { type: "button", on: { click: () => dialog.close() } }, "Close");
  const dialog = el(
    "dialog",
    { class: "share", "aria-label": "Share" },
    el("h2", {}, "Share as a link"),
    el("p", {}, "The link carries the whole cabinet in itself. Nothing is stored anywhere else."),
    address,
    said,
    close,
  );
  const share = button("Share", () => void offerLink(store, dialog, address, said));
  return el("span", {}, share, dialog);
}

async function offerLink(
  store: SessionStore,
  dialog: HTMLDialogElement,
  address: HTMLInputElement,
  said: HTMLElement,
): Promise<void> {
  const fragment = await fragmentOf(store.get());
  address.hidden = fragment === null;
  address.value = fragment === null ? "" : `${location.href.split("#")[0]}${fragment}`;
  fill(said, fragment === null ? "This cabinet is too large for a link: save it as a file instead." : "");
  dialog.showModal();
  if (fragment === null) return;
  address.select();
  try {
    await navigator.clipboard.writeText(address.value);
    fill(said, "Copied.");
  } catch {
    fill(said, "Copy it from the field.");
  }
}
