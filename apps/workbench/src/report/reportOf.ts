import { type Cabinet, writeCabinet } from "@startgap/cabinet";
import { reportHtml } from "@startgap/figures";
import type { Besides, Check, StudyOptions } from "@startgap/study";
import manifest from "../../package.json" with { type: "json" };
import { sha256 } from "./sha256.ts";

export interface Reported extends Besides {
  readonly cabinet: Cabinet;
  readonly check: Check;
  readonly options: StudyOptions;
  readonly fileName: string;
}

/** Year, month and day by the clock on the wall, as ISO 8601 writes them. */
function today(): string {
  const now = new Date();
  const two = (value: number): string => String(value).padStart(2, "0");
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
}

/** The report that the command makes of the same cabinet and options, to the last character. */
export const reportOf = (reported: Reported): string =>
  reportHtml({
    ...reported,
    page: document,
    version: manifest.version,
    digest: sha256(writeCabinet(reported.cabinet.file)),
    date: today(),
  });
