import { defineConfig, type Plugin } from "vite";

/**
 * What the built page may load: its own files and nothing else. Left out while developing, when the server
 * itself adds scripts and styles to the page.
 */
const policy = [
  "default-src 'none'",
  "script-src 'self'",
  "style-src 'self'",
  "img-src 'self' blob:",
  "worker-src 'self'",
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

/** Relative addresses throughout, so that the built folder works from any place on any plain server. */
export default defineConfig({
  base: "./",
  plugins: [contentPolicy()],
  worker: { format: "es" },
  build: { target: "es2022", modulePreload: { polyfill: false }, reportCompressedSize: true },
});
