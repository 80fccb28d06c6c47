import type { Cabinet } from "@startgap/cabinet";
import type { Besides, Check, StudyOptions } from "@startgap/study";
import type { Page } from "../context.ts";
import type { Measured } from "../measured.ts";

export type Paper = "a4" | "letter";

/** What a report is made of; what is absent of what stands beside the check is left out. It holds no clock and no chance: the same input gives the same text. */
export interface ReportInput extends Besides {
  /** The document to draw the figures in; nothing of it is changed. */
  readonly page: Page;
  readonly cabinet: Cabinet;
  /** Of this cabinet with these options. */
  readonly check: Check;
  /** As the study was given them: what is absent was left to the program. */
  readonly options: StudyOptions;
  /** Of the program, as "0.1.0". */
  readonly version: string;
  /** SHA-256 of `writeCabinet(cabinet.file)` as UTF-8: 64 hexadecimal digits. */
  readonly digest: string;
  /** The day it was made, as it is to be printed. */
  readonly date: string;
  /** Name of the cabinet file, for the command that makes the report again. */
  readonly fileName: string;
  /** Paper size that is laid down in the file; left to the printer when absent. */
  readonly paper?: Paper;
  /** Readings of a meter on site, drawn as dots on the curves that predicted them. */
  readonly measured?: readonly Measured[];
}
