/** The page's scripts as a built page has them: see `build/chunks.js`. */

type LaterCode = typeof import("../later.ts");

declare const startgapScripts: {
  worker(entry: "worker.js" | "laterWorker.js", name: string): Worker;
  later(): Promise<LaterCode>;
};

export const startStudy = (name: string): Worker => startgapScripts.worker("worker.js", name);

export const later = (): Promise<LaterCode> => startgapScripts.later();

export async function startLaterStudy(name: string): Promise<Worker> {
  await later();
  return startgapScripts.worker("laterWorker.js", name);
}
