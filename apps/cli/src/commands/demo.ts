import { join } from "node:path";
import { examples, parseCabinet } from "@startgap/cabinet";
import { check, isFailure } from "@startgap/study";
import { draw, type FigureName, type Subject } from "../figures/draw.ts";
import type { Io, OutputFile } from "../io.ts";
import { giveUp, refuse } from "../prepare.ts";
import { watched } from "../progress.ts";
import { exit } from "../status.ts";
import { checkText } from "../text/check.ts";
import { lines } from "../text/plain.ts";
import { wrap } from "../text/wrap.ts";

const FOLDER = "demo-output";

const MEANING =
  "This cabinet is invented. Read it so: the first line is what to do; the findings judge the cabinet with its " +
  "delay; what fails all at once is why the second motor waits. The pictures show both.";

/** What the demonstration draws, and what each picture shows. */
const pictures: readonly { readonly figure: FigureName; readonly shows: string }[] = [
  { figure: "overlay", shows: "volts, amperes, speeds and fuse heating of every case over one another" },
  { figure: "delay-map", shows: "what holding the second motor back gains, delay by delay" },
  { figure: "volts", shows: "where the volts go at the worst moment of every case" },
  { figure: "time-current", shows: "the line fuses' band with the starts laid on it" },
];

/** Those of the pictures that the cabinet has, as files. */
function drawAll(page: Document, subject: Subject): (OutputFile & { readonly shows: string })[] {
  return pictures.flatMap(({ figure, shows }) => {
    const drawn = draw(figure, page, subject);
    return "svg" in drawn ? [{ path: join(FOLDER, `${figure}.svg`), text: drawn.svg, shows }] : [];
  });
}

/**
 * `startgap demo`: the main job on the first example, with its pictures.
 *
 * Its exit status is 0 also when findings fail: the example is there to show them.
 */
export async function demoCommand(io: Io): Promise<number> {
  const [example] = examples;
  const parsed = parseCabinet(example.text);
  if ("issues" in parsed) return refuse(parsed.issues, io, example.key);
  const { cabinet } = parsed;
  const result = watched(io, "Checking", (onProgress) => check(cabinet, { onProgress }));
  if (isFailure(result)) return giveUp(result, io);
  const page = await io.document();
  const drawn = drawAll(page, { cabinet, options: {}, check: result });
  const file = join(FOLDER, `${example.key}.cabinet.json`);
  io.makeFolder(FOLDER);
  io.writeAll([...drawn, { path: file, text: example.text }]);
  const { width } = io.out;
  const written = drawn.flatMap(({ path, shows }) => wrap(`${path}: ${shows}`, width, 2));
  io.out.write(
    lines([
      ...checkText(cabinet, result.report, io.out, { all: false, assumptions: false }),
      "",
      ...wrap(MEANING, width),
      "",
      "Written:",
      ...written,
      `${file}: the cabinet itself, to change and check again`,
      "",
      ...wrap(`Next: npm run startgap -- check ${file}`, width, 2),
      ...wrap("Or drag the second start yourself in the workbench: npm run workbench", width, 2),
    ]),
  );
  return exit.passed;
}
