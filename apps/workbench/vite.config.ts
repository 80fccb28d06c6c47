import { defineConfig, type Plugin } from "vite";

/**
 * What the built page may load: its own files and nothing else; the study's worker is made from the page's own
 * script. Left out while developing, when the server itself adds scripts and styles to the page.
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

/** A page opened from a folder, without any server, may load plain scripts and styles but no modules. */
const plainScripts = (): Plugin => ({
  name: "plain-scripts",
  apply: "build",
  transformIndexHtml: {
    order: "post",
    handler: (html) =>
      html
        .replaceAll('<script type="module" crossorigin', "<script defer")
        .replaceAll('stylesheet" crossorigin', 'stylesheet"'),
  },
});

/** Relative addresses throughout, so that the built folder works from any place: any plain server, or none. */
export default defineConfig({
  base: "./",
  plugins: [plainScripts(), contentPolicy()],
  worker: { format: "iife" },
  build: {
    target: "es2022",
    modulePreload: { polyfill: false },
    cssCodeSplit: false,
    rolldownOptions: { output: { format: "iife" } },
  },
});
