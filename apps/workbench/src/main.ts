import { startPage } from "./page.ts";
import { change } from "./state/history.ts";
import { keepWork, keptWork } from "./state/keep.ts";
import { linkedIn } from "./state/link.ts";
import { sessionOf } from "./state/session.ts";
import { startEngine } from "./study/engine.ts";

const [newest] = keptWork();
const store = sessionOf(
  newest === undefined ? {} : { text: newest.text, delay_s: newest.delay_s, past: newest.past },
);

/** A cabinet in the address takes the place of what was there, one step back. */
async function takeLink(): Promise<void> {
  const linked = await linkedIn(location.hash);
  if (linked !== null) forgetFragment();
  if (typeof linked === "string") store.set({ notice: linked });
  else if (linked !== null)
    change(store, linked, { notice: "Opened from a link. Undo brings your own cabinet back." });
}

/** What came with the address was taken over once: loading the page again must not put it over later work. */
function forgetFragment(): void {
  try {
    history.replaceState(null, "", location.href.split("#")[0]);
  } catch {
    // A page opened from a folder may not change its address.
  }
}

/** Where nothing was kept and nothing came along, the page begins with an example. */
function beginWithExample(): void {
  const { text, examples } = store.get();
  if (text === "" && examples.length > 0) store.set({ text: examples[0].text });
}

startPage(document.body, store);
keepWork(store);
startEngine(store);
void takeLink().then(() => {
  store.watch(beginWithExample);
  beginWithExample();
});
addEventListener("hashchange", () => void takeLink());
