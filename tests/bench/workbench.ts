/**
 * The workbench in a browser: size of its script, time to its first picture, what a drag costs the page's own thread
 * frame by frame by the browser's own tracing, and how many frames the figures are behind the handle. Run with `npx tsx tests/bench/workbench.ts`.
 */

import { readdir, readFile } from "node:fs/promises";
import { loadavg } from "node:os";
import { join } from "node:path";
import { gzipSync } from "node:zlib";
import type { Browser, Page } from "playwright-core";
import { launch } from "../browser/support/launch.ts";
import { openSite, type Site } from "../browser/support/site.ts";

const LOADS = 7;
const MOVES = 180;
/** One picture of a screen that shows sixty a second. */
const FRAME_ms = 16.7;

interface TraceEvent {
  readonly name: string;
  readonly ph: string;
  readonly ts: number;
  readonly dur?: number;
  /** Of the processor alone, whatever else the machine does. */
  readonly tdur?: number;
  readonly pid: number;
  readonly tid: number;
  readonly args: { readonly name?: string };
}

const quantile = (values: readonly number[], q: number): number =>
  [...values].sort((a, b) => a - b)[Math.min(values.length - 1, Math.floor(q * values.length))] ?? Number.NaN;

const spread = (values: readonly number[]): string =>
  `median ${quantile(values, 0.5).toFixed(1)} ms, 95 % within ${quantile(values, 0.95).toFixed(1)} ms, most ${Math.max(...values).toFixed(1)} ms`;

async function firstPictures(browser: Browser, site: Site): Promise<number[]> {
  const times: number[] = [];
  for (let i = 0; i < LOADS; i++) {
    const context = await browser.newContext({ viewport: { width: 1400, height: 900 } });
    const page = await context.newPage();
    await page.goto(site.url);
    await page.waitForSelector("#story svg");
    times.push(await page.evaluate(() => performance.getEntriesByName("first picture")[0].startTime));
    await context.close();
  }
  return times;
}

/** Moves the second start to and fro, as fast as a screen shows it. */
async function drag(page: Page): Promise<void> {
  const box = (await page.locator("#story .handle").boundingBox())!;
  const y = box.y + box.height / 2;
  let x = box.x + box.width / 2;
  await page.mouse.move(x, y);
  await page.mouse.down();
  for (let i = 0; i < MOVES; i++) {
    x += i % 60 < 30 ? -4 : 4;
    await page.mouse.move(x, y);
    await page.waitForTimeout(FRAME_ms - 2);
  }
  await page.mouse.up();
}

async function traceDrag(
  browser: Browser,
  site: Site,
): Promise<{ trace: readonly TraceEvent[]; frames: readonly Shown[] }> {
  const page = await browser.newPage({ viewport: { width: 1400, height: 1500 } });
  await page.goto(site.url);
  await page.waitForSelector("#story svg");
  await page.waitForTimeout(1500);
  await page.evaluate(watchLag);
  await browser.startTracing(page, {
    categories: ["devtools.timeline", "disabled-by-default-devtools.timeline"],
  });
  await drag(page);
  const trace = JSON.parse((await browser.stopTracing()).toString("utf8")) as { traceEvents: TraceEvent[] };
  const frames = (await page.evaluate("frames_")) as Shown[];
  await page.close();
  return { trace: trace.traceEvents, frames };
}

/** What stood on the page once a frame was done. */
interface Shown {
  /** Where the pointer and the middle of the handle are, px from the left. */
  readonly pointer: number;
  readonly grip: number;
  readonly handle: string;
  readonly curves: string;
  readonly findings: string;
  readonly map: string;
}

/** Notes after every frame which delay the handle, the curves, the findings and the mark on the map show. */
const watchLag = `
  globalThis.frames_ = [];
  let pointer = 0;
  addEventListener("pointermove", (event) => { pointer = event.clientX; }, true);
  const of = (selector, name) => document.querySelector(selector)?.getAttribute(name) ?? "";
  const note = () => {
    const told = document.querySelector("#findings .staggered .case-title")?.textContent ?? "";
    const box = document.querySelector("#story .handle").getBoundingClientRect();
    frames_.push({
      pointer,
      grip: box.left + box.width / 2,
      handle: of("#story .handle", "aria-valuenow"),
      curves: of("#story [data-time_s]", "data-time_s"),
      findings: told.replace(/[^0-9.]/g, ""),
      map: of("#delays .handle", "aria-valuenow"),
    });
  };
  const next = () => requestAnimationFrame(() => { setTimeout(note); next(); });
  next();
`;

/** Frames that a figure is behind the handle, for every frame in which the handle has moved. */
function lagsOf(frames: readonly Shown[], figure: "curves" | "findings" | "map"): number[] {
  return frames.flatMap((frame, i) => {
    if (i === 0 || frame.handle === frames[i - 1].handle) return [];
    for (let lag = 0; i + lag < frames.length; lag++) {
      if (frames[i + lag][figure] === frame.handle) return [lag];
      if (frames[i + lag].handle !== frame.handle && lag > 8) break;
    }
    return [];
  });
}

/** Frames that the handle is behind the pointer, to the two pixels that it is set by. */
const gripLags = (frames: readonly Shown[]): number[] =>
  frames.flatMap(({ pointer }, i) => {
    if (i === 0 || pointer === frames[i - 1].pointer) return [];
    const lag = frames.slice(i, i + 10).findIndex(({ grip }) => Math.abs(grip - pointer) <= 2);
    return lag < 0 ? [] : [lag];
  });

function sayLags(frames: readonly Shown[]): void {
  const behind = (lags: readonly number[], what: string): void => {
    const share = (most: number): string =>
      `${((100 * lags.filter((lag) => lag <= most).length) / Math.max(1, lags.length)).toFixed(0)} %`;
    console.log(
      `${what} (${lags.length} moves): in its own frame ${share(0)}, by the next ${share(1)}, by the one after ${share(2)}`,
    );
  };
  behind(gripLags(frames), "handle behind the pointer");
  for (const figure of ["curves", "findings", "map"] as const)
    behind(lagsOf(frames, figure), `${figure} behind the handle`);
}

/** Lasting events of a name on the threads of a name, in the process that laid the page out. */
function eventsOn(trace: readonly TraceEvent[], thread: RegExp, name: string): TraceEvent[] {
  const pages = new Set(trace.filter((event) => event.name === "UpdateLayoutTree").map((event) => event.pid));
  const threads = new Set(
    trace
      .filter(
        (event) => event.name === "thread_name" && thread.test(event.args.name ?? "") && pages.has(event.pid),
      )
      .map((event) => `${event.pid} ${event.tid}`),
  );
  return trace.filter(
    (event) => event.name === name && event.ph === "X" && threads.has(`${event.pid} ${event.tid}`),
  );
}

type Clock = (event: TraceEvent) => number;
const onTheWall: Clock = ({ dur = 0 }) => dur / 1000;
const onTheProcessor: Clock = ({ dur = 0, tdur = dur }) => tdur / 1000;

/** Time that the page's own thread was busy in every stretch of one frame, ms; idle stretches are left out. */
function busyPerFrame(trace: readonly TraceEvent[], clock: Clock): number[] {
  const tasks = eventsOn(trace, /^CrRendererMain$/, "RunTask");
  const start = Math.min(...tasks.map((task) => task.ts));
  const busy = new Map<number, number>();
  for (const task of tasks) {
    const frame = Math.floor((task.ts - start) / (1000 * FRAME_ms));
    busy.set(frame, (busy.get(frame) ?? 0) + clock(task));
  }
  return [...busy.values()].filter((time) => time > 1);
}

async function saySizes(site: Site): Promise<void> {
  const names = (await readdir(site.folder, { recursive: true })).filter((name) => name.endsWith(".js"));
  const html = await readFile(join(site.folder, "index.html"), "utf8");
  let [first, all] = [0, 0];
  for (const name of names) {
    const size = gzipSync(await readFile(join(site.folder, name))).length;
    all += size;
    if (html.includes(name)) first += size;
  }
  console.log(
    `script, compressed: ${(first / 1000).toFixed(1)} kB for the first picture, ${(all / 1000).toFixed(1)} kB in all`,
  );
}

const sayLoad = (): void => {
  console.log(
    `load of the machine: ${loadavg()
      .map((load) => load.toFixed(1))
      .join(", ")}`,
  );
};

const [site, browser] = await Promise.all([openSite(), launch()]);
sayLoad();
await saySizes(site);
console.log(`first picture (${LOADS} loads): ${spread(await firstPictures(browser, site))}`);
const { trace, frames } = await traceDrag(browser, site);
sayLags(frames);
for (const [name, clock] of [
  ["by the clock", onTheWall],
  ["of the processor", onTheProcessor],
] as const) {
  const busy = busyPerFrame(trace, clock);
  const within = busy.filter((time) => time <= FRAME_ms).length / busy.length;
  console.log(
    `page's own thread in a frame of a drag, ${name} (${busy.length}): ${spread(busy)}; ${(100 * within).toFixed(1)} % within ${FRAME_ms} ms`,
  );
  const answers = eventsOn(trace, /DedicatedWorker/, "HandlePostMessage").map(clock);
  console.log(`the study's worker for an answer, ${name} (${answers.length}): ${spread(answers)}`);
}
sayLoad();
await browser.close();
await site.close();
