import { existsSync } from "node:fs";
import carried from "@sparticuz/chromium";
import { type Browser, chromium } from "playwright-core";

/** Browsers that a machine may have of its own. */
const installed = [
  "/usr/bin/chromium",
  "/usr/bin/chromium-browser",
  "/usr/bin/google-chrome",
  "/usr/bin/google-chrome-stable",
  "/Applications/Google Chrome.app/Contents/MacOS/Google Chrome",
];

/** Nothing of the browser's own may go to the network. */
const quiet = [
  "--no-sandbox",
  "--disable-gpu",
  "--disable-quic",
  "--no-first-run",
  "--disable-background-networking",
  "--disable-component-update",
  "--disable-sync",
];

/** The machine's own browser, or the one that comes with the packages: always that one with BROWSER=carried. */
export async function launch(): Promise<Browser> {
  const own = process.env.BROWSER === "carried" ? undefined : installed.find((path) => existsSync(path));
  const executablePath = own ?? (await carried.executablePath());
  return chromium.launch({ executablePath, args: [...quiet], headless: true });
}
