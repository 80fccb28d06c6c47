/** What becomes of the motors after a dip, by what is left of the voltage and how long it lasts. */

import type { DipEnd, DipMap } from "@startgap/study";
import { scaleLinear, scaleLog } from "d3";
import { axisTitle, type Box, levelAxis, levelGrid, type Tick, uprightAxis } from "./axes.ts";
import { append, appendText, type Page } from "./context.ts";
import { type DipScales, dipLines, dipRegions, endAtPoint } from "./dipRegions.ts";
import { logTickText, percent, significant, space } from "./format.ts";
import { describe, type FigureOptions, frame, heightOf, resize } from "./frame.ts";
import { type Cells, cellsOf, roomFor } from "./roomFor.ts";
import { textWidth } from "./textWidth.ts";
import { rectangle } from "./voltageBands.ts";

/** Shades from light to dark as things get worse; the words in each region tell them apart. */
const SHADES: Readonly<Record<DipEnd, string>> = {
  holds: "range",
  staggered: "link",
  alone: "dim",
  together: "drop",
  "stays off": "stall",
  chatters: "stall",
};

const WORDS: Readonly<Record<DipEnd, readonly string[]>> = {
  holds: ["every motor", "runs on"],
  staggered: ["one after", "the other"],
  alone: ["one motor", "restarts"],
  together: ["all restart", "together"],
  "stays off": ["something", "stays off"],
  chatters: ["contacts", "chatter"],
};

const ENDS = Object.keys(WORDS) as DipEnd[];

/** "15 ms", "1.3 s" */
export const dipLength = (t: number): string =>
  t < 1 ? `${significant(1000 * t, 2)}${space}ms` : `${significant(t, 2)}${space}s`;

/**
 * The dip map: regions of what follows a dip, each named in place, with the lines between them and the lengths at which
 * the deepest dip crosses them.
 *
 * @param page  the document to draw in
 * @throws RangeError for a width or height that makes no figure, or a map without a grid
 */
export function dipMap(page: Page, map: DipMap, options: FigureOptions = {}): SVGSVGElement {
  if (map.left.length < 2 || map.length_s.length < 2)
    throw new RangeError("invalid map: (expected two depths and two lengths or more)");
  const { root, ink, width, size } = frame(page, options);
  const height = heightOf(options, Math.min(width * 0.95, 230 + width * 0.22));
  const box = { left: size * 4.2, right: width - size * 1.3, top: size * 4.2, bottom: height - size * 3.4 };
  const scales = scalesOf(map, box);
  for (const { end, d } of dipRegions(map.edges, scales)) append(ink, "path", { class: SHADES[end], d });
  drawAxes(ink, map, scales, size);
  append(ink, "path", { class: "curve edge", d: dipLines(map.edges, scales) });
  const cells = cellsOf(box, (x, y) => endAtPoint(map.edges, scales, [x, y]));
  const taken = nameEdges(ink, map, scales, cells, size);
  const rest = nameRegions(ink, map, cells, taken, size);
  drawHeadings(ink, rest, box, size);
  resize(root, width, height);
  describe(root, options.prefix, "What a dip of the line leads to", summaryOf(map));
  return root;
}

function scalesOf({ left, length_s }: DipMap, box: Box): DipScales {
  const x = scaleLog([length_s[0], length_s[length_s.length - 1]], [box.left, box.right]);
  const y = scaleLinear([left[0], left[left.length - 1]], [box.bottom, box.top]);
  return { box, x: (t) => x(t), y: (v) => y(v) };
}

function drawAxes(ink: SVGElement, { left, length_s }: DipMap, { box, x, y }: DipScales, size: number): void {
  const across = lengthTicks(length_s[0], length_s[length_s.length - 1]).map(
    (t): Tick => ({ at: x(t), text: logTickText(t) }),
  );
  const up = scaleLinear([left[0], left[left.length - 1]], [0, 1])
    .ticks(Math.max(2, Math.floor((box.bottom - box.top) / (size * 3))))
    .map((v): Tick => ({ at: y(v), text: percent(v) }));
  levelGrid(ink, [box], across);
  uprightAxis(ink, box, up, size);
  levelAxis(ink, box, across, size);
  axisTitle(ink, box, "length of the dip, s", size, box.bottom + size * 2.9);
}

/** One, two and five of every power of ten within the axis. */
function lengthTicks(from: number, to: number): number[] {
  const powers = Array.from({ length: 12 }, (_, k) => 10 ** (k - 6));
  const all = powers.flatMap((power) => [1, 2, 5].map((digit) => digit * power));
  return all.filter((t) => t >= from * (1 - 1e-9) && t <= to * (1 + 1e-9));
}

/** The lengths at which the deepest dip changes its end, beside their lines at the foot of the plot. */
function nameEdges(ink: SVGElement, map: DipMap, { box, x }: DipScales, cells: Cells, size: number): Box[] {
  const [deepest] = map.edges;
  const taken: Box[] = [];
  deepest.changes.forEach(({ at_s }, k) => {
    const words = dipLength(at_s);
    const left = x(at_s) + size * 0.35;
    const right = left + textWidth(words, size, true);
    const place = { left, right, top: box.bottom - size * 1.6, bottom: box.bottom - size * 0.2 };
    const next = deepest.changes[k + 1];
    if (right > Math.min(box.right, next === undefined ? box.right : x(next.at_s))) return;
    if (!isOne(cells, place)) return;
    appendText(ink, words, { class: "strong", x: left, y: box.bottom - size * 0.5 });
    taken.push(place);
  });
  return taken;
}

/** True when a box lies in one region. */
function isOne({ box, columns, rows, names }: Cells, place: Box): boolean {
  const cell = (box.right - box.left) / columns;
  const seen = new Set<string>();
  for (let row = 0; row < rows; row++)
    for (let column = 0; column < columns; column++) {
      const [x, y] = [
        box.left + (column + 0.5) * cell,
        box.top + ((row + 0.5) * (box.bottom - box.top)) / rows,
      ];
      if (x > place.left && x < place.right && y > place.top && y < place.bottom)
        seen.add(names[row * columns + column]);
    }
  return seen.size <= 1;
}

/** Words in every region, in one line or in two; the ends of those in which they fit nowhere are returned. */
function nameRegions(
  ink: SVGElement,
  map: DipMap,
  cells: Cells,
  taken: readonly Box[],
  size: number,
): DipEnd[] {
  const drawn = new Set(
    map.edges.flatMap(({ shortest, changes }) => [shortest, ...changes.map((c) => c.after)]),
  );
  return ENDS.filter((end) => {
    if (!drawn.has(end)) return false;
    const loaded = isLoaded(map, end) ? [["against", "full heads"]] : [];
    const layouts = [
      ...loaded.map((more) => [WORDS[end].join(" "), more.join(" ")]),
      [WORDS[end].join(" ")],
      ...loaded.map((more) => [...WORDS[end], ...more]),
      [...WORDS[end]],
    ];
    for (const lines of layouts) {
      const wanted = Math.max(...lines.map((line, i) => textWidth(line, size, i === 0)));
      const place = roomFor(cells, end, { width: wanted, height: lines.length * size * 1.3 }, taken);
      if (place === null) continue;
      drawLines(ink, lines, place, WORDS[end], size);
      return false;
    }
    return true;
  });
}

function drawLines(
  ink: SVGElement,
  lines: readonly string[],
  place: Box,
  name: readonly string[],
  size: number,
): void {
  const x = (place.left + place.right) / 2;
  const top = (place.top + place.bottom - lines.length * size * 1.3) / 2;
  const isName = (line: string): boolean => line === name.join(" ") || name.includes(line);
  lines.forEach((line, i) => {
    const y = top + (i + 1) * size * 1.3 - size * 0.35;
    appendText(ink, line, { class: isName(line) ? "strong" : "soft", "text-anchor": "middle", x, y });
  });
}

/** True when some motor meets a full head after every dip of the grid that ends so. */
function isLoaded({ outcomes }: DipMap, end: DipEnd): boolean {
  const own = outcomes.flat().filter((one) => one.end === end);
  return end !== "holds" && own.length > 0 && own.every(({ loaded }) => loaded.length > 0);
}

const HEADING = "After a dip of the line";

/** The heading, and a key of what found no room in its region: beside the axis' name, then beside the heading. */
function drawHeadings(ink: SVGElement, rest: readonly DipEnd[], box: Box, size: number): void {
  appendText(ink, HEADING, { class: "heading", x: size * 0.5, y: size * 1.5 });
  appendText(ink, "voltage left", { class: "soft", x: size * 0.5, y: size * 3 });
  const rows = [
    { y: size * 3, from: size * 8 },
    { y: size * 1.5, from: textWidth(HEADING, size, true) + size * 1.5 },
  ];
  let right = box.right;
  for (const { shade, words } of keysOf(rest)) {
    const wide = textWidth(words, size) + size * 1.6;
    while (rows.length > 0 && right - wide < rows[0].from) {
      rows.shift();
      right = box.right;
    }
    if (rows.length === 0) return;
    const [{ y }] = rows;
    const left = right - wide;
    const swatch = rectangle({ left, right: left + size, top: y - size * 0.9, bottom: y + size * 0.1 });
    append(ink, "rect", { class: shade, ...swatch });
    append(ink, "rect", { class: "mark", ...swatch });
    appendText(ink, words, { class: "soft", x: left + size * 1.4, y });
    right = left - size;
  }
}

/** A shade and what it stands for; one that stands for two things says both. */
function keysOf(rest: readonly DipEnd[]): { shade: string; words: string }[] {
  const shades = [...new Set(rest.map((end) => SHADES[end]))];
  return shades.map((shade) => ({
    shade,
    words: rest
      .filter((end) => SHADES[end] === shade)
      .map((end) => WORDS[end].join(" "))
      .join(" or "),
  }));
}

/** The regions of the deepest dip and of the shallowest in words. */
function summaryOf(map: DipMap): string {
  const rows = [map.edges[0], map.edges[map.edges.length - 1]];
  const said = rows.map(({ left, shortest, changes }) => {
    const ends = [shortest, ...changes.map(({ after }) => after)];
    const parts = ends.map((end, i) => {
      const until = changes[i] === undefined ? "" : ` up to ${dipLength(changes[i].at_s)}`;
      return `${WORDS[end].join(" ")}${until}`;
    });
    return `With ${percent(left)} left: ${parts.join(", then ")}.`;
  });
  return said.join(" ").replaceAll("\u00a0", " ");
}
