import { spawn } from "node:child_process";
import { accessSync, constants, existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { delimiter, join } from "node:path";
import { pathToFileURL } from "node:url";

/** What browsers that can print are called, where they are called by name. */
const commands = [
  "chromium",
  "chromium-browser",
  "google-chrome",
  "google-chrome-stable",
  "chrome",
  "microsoft-edge",
];

const applications = [
  "/Applications/Google Chrome.app/Contents/MacOS/Google Chrome",
  "/Applications/Chromium.app/Contents/MacOS/Chromium",
  "/Applications/Microsoft Edge.app/Contents/MacOS/Microsoft Edge",
];

const windowsPrograms = [
  "Google\\Chrome\\Application\\chrome.exe",
  "Microsoft\\Edge\\Application\\msedge.exe",
];

type Environment = Readonly<Record<string, string | undefined>>;

/** Everywhere that a browser may be installed, likeliest first. */
export function browserPlaces(env: Environment): string[] {
  const folders = (env.PATH ?? "").split(delimiter).filter((folder) => folder !== "");
  const programs = [env.ProgramFiles, env["ProgramFiles(x86)"], env.LOCALAPPDATA].filter(
    (one) => one !== undefined,
  );
  return [
    ...commands.flatMap((name) => folders.map((folder) => join(folder, name))),
    ...applications,
    ...programs.flatMap((folder) => windowsPrograms.map((name) => join(folder, name))),
  ];
}

function isExecutable(path: string): boolean {
  try {
    accessSync(path, constants.X_OK);
    return existsSync(path);
  } catch {
    return false;
  }
}

/** A browser's program, or why there is none. */
export function findBrowser(env: Environment): { readonly path: string } | { readonly missing: string } {
  const { CHROME = "" } = env;
  if (CHROME !== "") {
    return isExecutable(CHROME)
      ? { path: CHROME }
      : {
          missing: `CHROME names ${JSON.stringify(CHROME.slice(0, 200))}, which is no program that can be run`,
        };
  }
  const path = browserPlaces(env).find(isExecutable);
  return path === undefined
    ? { missing: "no Chrome or Chromium was found; name one in the environment variable CHROME" }
    : { path };
}

/** A page without scripts prints within a second or two; a first start of the browser takes longer. */
const PATIENCE_ms = 60_000;

/** A browser must not be run by the superuser with its sandbox; the page has no scripts and nothing of the network. */
const sandboxFlags = (): string[] => (process.getuid?.() === 0 ? ["--no-sandbox"] : []);

const lastLine = (text: string): string[] => text.trim().split("\n").slice(-1).filter(Boolean);

/** Runs a program to its end; rejects when it fails or takes too long, with the last of what it said. */
function finished(path: string, args: readonly string[]): Promise<void> {
  return new Promise((resolve, reject) => {
    const child = spawn(path, args, { stdio: ["ignore", "ignore", "pipe"], timeout: PATIENCE_ms });
    let said = "";
    child.stderr.on("data", (data) => {
      said = `${said}${data}`.slice(-300);
    });
    child.on("error", reject);
    child.on("close", (code, signal) => {
      if (code === 0) resolve();
      else reject(new Error([`the browser ended with ${signal ?? code}`, ...lastLine(said)].join(": ")));
    });
  });
}

/** A whole PDF begins and ends as one. */
const isWhole = (pdf: Buffer): boolean =>
  pdf.subarray(0, 5).toString("latin1") === "%PDF-" &&
  pdf.subarray(-1024).toString("latin1").includes("%%EOF");

/**
 * A page as PDF, printed by a browser without a window.
 *
 * Page and PDF pass through a folder of their own that is removed again; the browser gets a profile of its own there.
 * Limitation: a browser that is confined to its user's folders may not reach it.
 */
export async function printPdf(browser: string, html: string): Promise<Uint8Array> {
  const folder = mkdtempSync(join(tmpdir(), "startgap-print-"));
  const [page, pdf] = [join(folder, "report.html"), join(folder, "report.pdf")];
  try {
    writeFileSync(page, html);
    await finished(browser, [
      "--headless",
      ...sandboxFlags(),
      "--disable-gpu",
      "--no-first-run",
      "--disable-background-networking",
      `--user-data-dir=${join(folder, "profile")}`,
      "--no-pdf-header-footer",
      `--print-to-pdf=${pdf}`,
      pathToFileURL(page).href,
    ]);
    const printed = existsSync(pdf) ? readFileSync(pdf) : Buffer.alloc(0);
    if (!isWhole(printed)) throw new Error("the browser ended without a whole PDF");
    return printed;
  } finally {
    rmSync(folder, { recursive: true, force: true, maxRetries: 5 });
  }
}
