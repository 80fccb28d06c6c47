/** A window of its own for every caller: nothing of it is shared. */

import { JSDOM } from "jsdom";
import type { Page } from "../src/index.ts";

export function newPage(): Page {
  return new JSDOM("").window.document;
}
