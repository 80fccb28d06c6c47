import { mkdtemp, readFile, rm } from "node:fs/promises";
import { createServer } from "node:http";
import type { AddressInfo } from "node:net";
import { tmpdir } from "node:os";
import { extname, join, normalize } from "node:path";
import { build } from "vite";

const workbench = new URL("../../../apps/workbench/", import.meta.url).pathname;

const types: Readonly<Record<string, string>> = {
  ".html": "text/html; charset=utf-8",
  ".js": "text/javascript",
  ".css": "text/css",
  ".svg": "image/svg+xml",
};

export interface Site {
  readonly url: string;
  readonly folder: string;
  close(): Promise<void>;
}

/** The workbench, built into a folder of its own and served as plain files. */
export async function openSite(): Promise<Site> {
  const folder = await mkdtemp(join(tmpdir(), "workbench-"));
  await build({
    root: workbench,
    configFile: join(workbench, "vite.config.ts"),
    logLevel: "silent",
    build: { outDir: folder, emptyOutDir: true },
  });
  const server = createServer(async (request, response) => {
    const path = normalize(new URL(request.url ?? "/", "http://localhost").pathname);
    try {
      const body = await readFile(join(folder, path === "/" ? "index.html" : path));
      response.setHeader("content-type", types[extname(path)] ?? "text/html; charset=utf-8");
      response.end(body);
    } catch {
      response.statusCode = 404;
      response.end();
    }
  });
  await new Promise<void>((ready) => server.listen(0, "127.0.0.1", ready));
  return {
    url: `http://127.0.0.1:${(server.address() as AddressInfo).port}/`,
    folder,
    async close() {
      server.closeAllConnections();
      await new Promise((done) => server.close(done));
      await rm(folder, { recursive: true, force: true });
    },
  };
}
