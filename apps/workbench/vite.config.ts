import { defineConfig, type Plugin } from "vite";
import { numbersOnly } from "./build/numbersOnly.ts";
import { plainScripts } from "./build/plainScripts.ts";

/**
 * What the built page may load: its own files and nothing else; the study's workers are made from the page's own
 * scripts. Left out while developing, when the server itself adds scripts and styles to the page.
 */
const policy = [
  "default-src 'none'",
  "script-src 'self'",
  "style-src 'self'",
  "img-src 'self'",
  "worker-src blob:",
  "base-uri 'none'",
  "form-action 'none'",
].join("; ");

const contentPolicy = (): Plugin => ({
  name: "content-policy",
  apply: "build",
  transformIndexHtml: {
    order: "post",
    handler: () => [
      {
        tag: "meta",
        attrs: { "http-equiv": "Content-Security-Policy", content: policy },
        injectTo: "head-prepend",
      },
    ],
  },
});

const source = (file: string): string => new URL(file, import.meta.url).pathname;

/** Relative addresses throughout, so that the built folder works from any place: any plain server, or none. */
export default defineConfig({
  base: "./",
  plugins: [numbersOnly(), plainScripts(), contentPolicy()],
  build: {
    target: "es2022",
    modulePreload: { polyfill: false },
    cssCodeSplit: false,
    rolldownOptions: {
      input: {
        index: source("./index.html"),
        worker: source("./src/study/worker.ts"),
        later: source("./src/later.ts"),
        laterWorker: source("./src/study/laterWorker.ts"),
      },
      preserveEntrySignatures: "allow-extension",
      output: { format: "cjs", entryFileNames: "[name].js", chunkFileNames: "[name]-[hash].js" },
    },
  },
});
