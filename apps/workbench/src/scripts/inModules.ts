/** The page's scripts as modules: while it is edited. A built page takes `inPlainFiles` instead. */

type LaterCode = typeof import("../later.ts");

/** A worker that runs the cases and the map. */
export const startStudy = (name: string): Worker =>
  new Worker(new URL("../study/worker.ts", import.meta.url), { type: "module", name });

/** What the first picture does not need. */
export const later = (): Promise<LaterCode> => import("../later.ts");

/** A worker for what takes longer: a whole report, and waveforms. */
export const startLaterStudy = async (name: string): Promise<Worker> =>
  new Worker(new URL("../study/laterWorker.ts", import.meta.url), { type: "module", name });
