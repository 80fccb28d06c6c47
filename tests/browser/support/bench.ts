import type { Browser, BrowserContextOptions, Page } from "playwright-core";
import { afterAll, beforeAll, expect } from "vitest";
import { launch } from "./launch.ts";
import { openSite, type Site } from "./site.ts";

/** One built site and one browser for all tests of a file. */
export interface Bench {
  readonly site: Site;
  readonly browser: Browser;
  /** A fresh page with the workbench open and its first picture drawn. Anything it complains of fails the test. */
  open(options?: BrowserContextOptions & { readonly hash?: string }): Promise<Opened>;
}

export interface Opened {
  readonly page: Page;
  /** Closes the page; fails when it complained or asked anything of a network. */
  done(): Promise<void>;
}

export function useBench(): Bench {
  let site: Site;
  let browser: Browser;
  beforeAll(async () => {
    [site, browser] = await Promise.all([openSite(), launch()]);
  });
  afterAll(async () => {
    await browser?.close();
    await site?.close();
  });
  return {
    get site() {
      return site;
    },
    get browser() {
      return browser;
    },
    open: (options = {}) => openPage(browser, site, options),
  };
}

async function openPage(
  browser: Browser,
  site: Site,
  { hash = "", ...options }: BrowserContextOptions & { readonly hash?: string },
): Promise<Opened> {
  const context = await browser.newContext({ viewport: { width: 1280, height: 900 }, ...options });
  context.setDefaultTimeout(15_000);
  const page = await context.newPage();
  const complaints: string[] = [];
  page.on("console", (message) => complaints.push(`${message.type()}: ${message.text()}`));
  page.on("pageerror", (error) => complaints.push(`error: ${error.message}`));
  page.on("request", (request) => {
    if (!request.url().startsWith(site.url) && !request.url().startsWith("blob:"))
      complaints.push(`request: ${request.url()}`);
  });
  await page.goto(`${site.url}${hash}`);
  await page.waitForSelector("#story svg");
  // What follows the first picture.
  await page.waitForSelector("#sketch", { state: "attached" });
  return {
    page,
    async done() {
      await context.close();
      expect(complaints).toEqual([]);
    },
  };
}
