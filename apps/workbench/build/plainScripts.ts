import { createHash } from "node:crypto";
import { readFileSync } from "node:fs";
import type { Plugin, Rolldown } from "vite";

const runtime = readFileSync(new URL("./chunks.js", import.meta.url), "utf8").replaceAll(
  /^(\/\*\*|\/\/).*\n/gm,
  "",
);
const inModules = /\/scripts\/inModules\.ts$/;

/**
 * A page opened from a folder, without any server, may load plain scripts but no modules. The built chunks become
 * functions in two plain files: one with all that the first picture needs, one that follows it. What the page and its
 * workers share is there once: a worker is made from the page's own functions, without a request.
 */
export const plainScripts = (): Plugin => ({
  name: "plain-scripts",
  apply: "build",
  enforce: "pre",
  resolveId: {
    order: "pre",
    async handler(source, importer) {
      if (!inModules.test(source)) return null;
      return this.resolve(source.replace("inModules", "inPlainFiles"), importer);
    },
  },
  generateBundle: {
    order: "post",
    handler(_, bundle) {
      const chunks = Object.values(bundle).filter((one) => one.type === "chunk");
      const first = new Set([...needsOf("index.js", chunks), ...needsOf("worker.js", chunks)]);
      const later = chunks.map(({ fileName }) => fileName).filter((name) => !first.has(name));
      const laterText = `Object.assign(startgapChunks,{${textOf(later, bundle)}})`;
      const laterFile = named("later", laterText);
      const needs = Object.fromEntries(
        ["worker.js", "laterWorker.js"].map((entry) => [entry, needsOf(entry, chunks)]),
      );
      const text = `var startgapChunks={${textOf([...first], bundle)}},startgapScripts=(()=>{${runtime}
return scriptsOf(startgapChunks,${JSON.stringify(needs)},${JSON.stringify(laterFile)})})();startgapScripts.page()`;
      const file = named("page", text);
      for (const { fileName } of chunks) delete bundle[fileName];
      this.emitFile({ type: "asset", fileName: `assets/${file}`, source: text });
      this.emitFile({ type: "asset", fileName: `assets/${laterFile}`, source: laterText });
      const page = bundle["index.html"];
      if (page?.type === "asset") page.source = plain(String(page.source), `./assets/${file}`);
    },
  },
});

/** A chunk and everything that it imports, itself last. */
function needsOf(entry: string, chunks: readonly Rolldown.OutputChunk[]): string[] {
  const found = new Set<string>();
  const visit = (name: string): void => {
    if (found.has(name)) return;
    found.add(name);
    for (const one of chunks.find(({ fileName }) => fileName === name)?.imports ?? []) visit(one);
  };
  visit(entry);
  return [...found].reverse();
}

const textOf = (names: readonly string[], bundle: Rolldown.OutputBundle): string =>
  names
    .map((name) => {
      const chunk = bundle[name];
      const code = chunk?.type === "chunk" ? chunk.code.trim() : "";
      return `${JSON.stringify(name)}:function(require,exports,module){${code}\n}`;
    })
    .join(",");

const named = (stem: string, text: string): string =>
  `${stem}-${createHash("sha256").update(text).digest("base64url").slice(0, 8)}.js`;

const plain = (html: string, script: string): string =>
  html
    .replace(/\s*<link rel="modulepreload"[^>]*>/g, "")
    .replace(/<script type="module"[^>]*>/, `<script defer src="${script}">`)
    .replaceAll('stylesheet" crossorigin', 'stylesheet"');
