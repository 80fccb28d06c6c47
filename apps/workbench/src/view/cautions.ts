import { el } from "../dom.ts";

/** What everybody must know before relying on the page: said once, in plain sight. */
export function cautions(): HTMLElement {
  return el(
    "section",
    { class: "cautions", "aria-label": "Cautions" },
    el(
      "p",
      {},
      el("strong", {}, "Estimates from what you state, not a code calculation. "),
      "The nameplate and the maker's curves win; local code and a licensed electrician decide. De-energise, and prove dead, before opening anything.",
    ),
    el(
      "details",
      {},
      el("summary", {}, "More to know before touching the cabinet"),
      el(
        "ul",
        {},
        el(
          "li",
          {},
          "A fuse in a neutral is no protection: when it opens, the load is dead and its line is still live. Ask the authority that has to approve it.",
        ),
        el(
          "li",
          {},
          "With one line fuse gone everything looks dead, and the other line is still live inside. Check line to line and each line to ground.",
        ),
        el(
          "li",
          {},
          "An autotransformer does not isolate. One open winding can put up to the full line voltage on a load.",
        ),
        el("li", {}, "Motors that start by themselves start without warning, the held-back one last of all."),
      ),
    ),
  );
}
