import { cabinetInReport } from "@startgap/figures";
import { change } from "./history.ts";
import { titleIn } from "./keep.ts";
import type { SessionStore } from "./session.ts";

/** A cabinet file is refused by its size before it is read: characters are at least a byte each. */
const LARGEST_FILE_bytes = 4_000_000;

/** Takes a file over as the cabinet. What it replaces is one step back. */
export async function openFile(store: SessionStore, file: File): Promise<void> {
  if (file.size > LARGEST_FILE_bytes) {
    store.set({ notice: `${file.name} is too large to be a cabinet file.` });
    return;
  }
  const text = cabinetIn(await file.text());
  change(
    store,
    { text, delay_s: null },
    { notice: `Opened ${file.name}. Undo brings the cabinet before it back.` },
  );
}

/** A report holds the cabinet that it was made of. */
const cabinetIn = (text: string): string =>
  text.trimStart().startsWith("<") ? (cabinetInReport(text) ?? text) : text;

/** Hands the cabinet to the reader as a file. */
export function saveFile(store: SessionStore): void {
  const { text } = store.get();
  handOver(new Blob([text], { type: "application/json" }), `${slugOf(titleIn(text))}.cabinet.json`);
}

export function handOver(blob: Blob, name: string): void {
  const link = document.createElement("a");
  link.href = URL.createObjectURL(blob);
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 10_000);
}

/** A title as the name of a file: letters and digits of any script, short. */
export function slugOf(title: string): string {
  const words = title
    .toLowerCase()
    .normalize("NFKD")
    .replace(/[^\p{Letter}\p{Number}]+/gu, "-")
    .replace(/^-+|-+$/g, "");
  return [...words].slice(0, 40).join("").replace(/-+$/, "") || "cabinet";
}

/** Files may be dropped anywhere on the page. */
export function takeDrops(store: SessionStore, page: HTMLElement): void {
  const carriesFile = (event: DragEvent): boolean => event.dataTransfer?.types.includes("Files") ?? false;
  page.addEventListener("dragover", (event) => {
    if (!carriesFile(event)) return;
    event.preventDefault();
    page.classList.add("dropping");
  });
  page.addEventListener("dragleave", (event) => {
    if (event.relatedTarget === null) page.classList.remove("dropping");
  });
  page.addEventListener("drop", (event) => {
    page.classList.remove("dropping");
    const file = event.dataTransfer?.files[0];
    if (file === undefined) return;
    event.preventDefault();
    void openFile(store, file);
  });
}
