import { readdir, readFile } from "node:fs/promises";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { gzipSync } from "node:zlib";
import { expect, it } from "vitest";
import type { Bench } from "./support/bench.ts";
import { findings, handle } from "./support/page.ts";

/** Of script, compressed: what the first picture needs, and with what follows it. */
const LARGEST_FIRST_bytes = 150_000;
const LARGEST_bytes = 200_000;

export function aloneTests(bench: Bench): void {
  it("the script of the first picture is no larger than 150 kB compressed, and all of it no larger than 200 kB", async () => {
    const names = (await readdir(bench.site.folder, { recursive: true })).filter((name) =>
      name.endsWith(".js"),
    );
    const sizeOf = async (name: string): Promise<number> =>
      gzipSync(await readFile(join(bench.site.folder, name))).length;
    const html = await readFile(join(bench.site.folder, "index.html"), "utf8");
    const first = names.filter((name) => html.includes(name));
    expect(first).toHaveLength(1);
    expect(await sizeOf(first[0])).toBeLessThanOrEqual(LARGEST_FIRST_bytes);
    const sizes = await Promise.all(names.map(sizeOf));
    expect(sizes.reduce((a, b) => a + b, 0)).toBeLessThanOrEqual(LARGEST_bytes);
  });

  it("once loaded it asks nothing of any network, and works without one", async () => {
    const { page, done } = await bench.open();
    await page.getByText("Hold the second motor back").waitFor();
    const asked: string[] = [];
    page.on("request", (request) => asked.push(request.url()));
    await page.context().setOffline(true);
    const before = await findings(page);
    await handle(page).focus();
    await page.keyboard.press("Home");
    await expect.poll(() => findings(page)).not.toBe(before);
    await page.getByRole("button", { name: "Client view" }).click();
    await page.locator("#client-voltage svg").waitFor();
    await Promise.all([
      page.waitForEvent("download"),
      page.getByRole("button", { name: "Report", exact: true }).click(),
    ]);
    expect(asked.filter((url) => !url.startsWith("blob:"))).toEqual([]);
    await done();
  });

  it("opens from the folder itself, without any server", async () => {
    const context = await bench.browser.newContext();
    const page = await context.newPage();
    const complaints: string[] = [];
    page.on("console", (message) => complaints.push(message.text()));
    page.on("pageerror", (error) => complaints.push(error.message));
    await page.goto(pathToFileURL(join(bench.site.folder, "index.html")).href);
    await page.waitForSelector("#story svg");
    await expect.poll(() => page.locator("#findings .finding").count()).toBeGreaterThan(3);
    await Promise.all([
      page.waitForEvent("download"),
      page.getByRole("button", { name: "Report", exact: true }).click(),
    ]);
    await page.locator("#wave").getByRole("button", { name: "First start" }).click();
    await page.locator("#wave svg").waitFor();
    await context.close();
    expect(complaints).toEqual([]);
  });

  it("where its second script does not come it says so, goes on, and asks for it again when that is needed", async () => {
    const context = await bench.browser.newContext();
    const page = await context.newPage();
    const complaints: string[] = [];
    page.on("pageerror", (error) => complaints.push(error.message));
    await page.route(/later-.*\.js$/, (route) => route.abort());
    await page.goto(bench.site.url);
    await page.getByText("Hold the second motor back").waitFor();
    const report = page.getByRole("button", { name: "Report", exact: true });
    await report.click();
    await expect.poll(() => page.locator(".notice").textContent()).toContain("load the page again");
    await page.getByRole("button", { name: "Client view" }).click();
    await page.locator("#main").getByText("Not everything is here").locator("visible=true").waitFor();
    await page.getByRole("button", { name: "Client view" }).click();
    await page.unrouteAll();
    await Promise.all([page.waitForEvent("download"), report.click()]);
    await page.getByRole("button", { name: "Client view" }).click();
    await page.locator("#client-voltage svg").waitFor();
    await context.close();
    expect(complaints).toEqual([]);
  });

  it("its policy allows its own script and style and nothing that is written into the page", async () => {
    const html = await readFile(join(bench.site.folder, "index.html"), "utf8");
    expect(html).toContain("Content-Security-Policy");
    expect(html).not.toMatch(/unsafe|<script>|<style|\son\w+=/);
    const { page } = await bench.open();
    const ran = await page.evaluate(() => {
      const script = document.createElement("script");
      script.textContent = "document.title = 'taken over'";
      document.head.append(script);
      return document.title;
    });
    expect(ran).not.toBe("taken over");
    await page.context().close();
  });
}
