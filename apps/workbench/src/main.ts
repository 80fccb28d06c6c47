import { startPage } from "./page.ts";
import { sessionOf } from "./state/session.ts";
import { startEngine } from "./study/engine.ts";

const store = sessionOf({ text: "", delay_s: null });
startEngine(store);
store.watch((now) => {
  if (now.text === "" && now.examples.length > 0) store.set({ text: now.examples[0].text });
});
startPage(document.body, store);
