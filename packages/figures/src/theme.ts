/** The style that a figure carries: one set of rules, coloured through custom properties a page may override. */

import { dark, light, type Palette, partColours } from "./palette.ts";

/** "auto" follows the reader's setting; dark figures print light. */
export type Theme = "light" | "dark" | "auto";

/**
 * Rules shared by every figure. Lengths are in em, so line widths and marks grow with the font. `$name` is a colour
 * of the palette.
 */
const rules = `
.startgap-figure{font-family:Arial,Helvetica,"Liberation Sans",sans-serif;font-variant-numeric:tabular-nums}
.startgap-figure text{fill:$ink;stroke:none}
.startgap-figure .paper{fill:$paper;stroke:none}
.startgap-figure .heading{font-weight:bold}
.startgap-figure .soft{fill:$soft}
.startgap-figure .halo{stroke:$paper;stroke-width:.28em;stroke-linejoin:round;paint-order:stroke}
.startgap-figure .strong{font-weight:bold}
.startgap-figure .grid{fill:none;stroke:$grid;stroke-width:.08em}
.startgap-figure .rule{fill:none;stroke:$rule;stroke-width:.1em}
.startgap-figure .mark{fill:none;stroke:$ink;stroke-width:.12em}
.startgap-figure .limit{fill:none;stroke:$ink;stroke-width:.1em;stroke-dasharray:.7em .2em .12em .2em}
.startgap-figure .curve{fill:none;stroke:$ink;stroke-linejoin:round;stroke-linecap:butt}
.startgap-figure .solid{fill:$ink;stroke:none}
.startgap-figure .outline{fill:$paper;stroke:$ink;stroke-width:.12em;stroke-linejoin:round}
.startgap-figure .faint{stroke-width:.04em}
.startgap-figure .faint-curve{stroke:$rule;stroke-width:.06em}
.startgap-figure .edge{stroke-width:.16em}
.startgap-figure .nominal{stroke:$staggered;stroke-width:.18em}
.startgap-figure .sagged{stroke:$together;stroke-width:.14em;stroke-dasharray:.6em .3em}
.startgap-figure .load{stroke-width:.12em;stroke-dasharray:.13em .3em}
.startgap-figure .one{stroke:$one;stroke-width:.12em;stroke-dasharray:.13em .3em}
.startgap-figure .alone .one{stroke-width:.18em;stroke-dasharray:none}
.startgap-figure .together{stroke:$together;stroke-width:.14em;stroke-dasharray:.6em .3em}
.startgap-figure .staggered{stroke:$staggered;stroke-width:.18em}
.startgap-figure .dense{stroke-width:.06em;stroke-dasharray:none}
.startgap-figure text.one-words{fill:$one}
.startgap-figure text.together-words{fill:$together}
.startgap-figure text.staggered-words{fill:$staggered}
.startgap-figure .dim{fill:$dim;fill-opacity:.75}
.startgap-figure .drop{fill:$drop;fill-opacity:.75}
.startgap-figure .stall{fill:$stall;fill-opacity:.75}
.startgap-figure .range{fill:$range;stroke:none}
.startgap-figure .rail{fill:$pass;stroke:none}
.startgap-figure .link{fill:$link;stroke:none}
.startgap-figure .pass{fill:$pass}
.startgap-figure .caution{fill:$caution}
.startgap-figure .fail{fill:$fail}
.startgap-figure .pass-line{fill:none;stroke:$pass;stroke-width:.16em}
.startgap-figure .caution-line{fill:none;stroke:$caution;stroke-width:.16em}
.startgap-figure .fail-line{fill:none;stroke:$fail;stroke-width:.16em}
.startgap-figure .detail{fill:none;stroke:$ink;stroke-width:.12em;stroke-linecap:round;stroke-linejoin:round}
.startgap-figure .pass-stroke{stroke:$pass;stroke-width:.16em}
.startgap-figure .caution-stroke{stroke:$caution;stroke-width:.16em}
.startgap-figure .fail-stroke{stroke:$fail;stroke-width:.16em}
.startgap-figure .plate{stroke:$paper;stroke-width:.12em;stroke-linejoin:round}
.startgap-figure .segment{stroke:$paper;stroke-width:.12em}
.startgap-figure .on-colour{fill:none;stroke:$paper;stroke-width:.16em;stroke-linecap:round;stroke-linejoin:round}
.startgap-figure text.on-colour{fill:$paper;stroke:none}
.startgap-figure .grip{fill:$staggered;stroke:$paper;stroke-width:.12em}
.startgap-figure .reach{fill:transparent;stroke:none}
`;

const partRules = (index: number) =>
  `.startgap-figure .part${index}{stroke:$part${index}}.startgap-figure .part${index}-fill{fill:$part${index}}\n`;

/** Rules with every colour as a custom property of the figure. */
export function styleText(): string {
  return [
    coloured((name) => `var(--figure-${name})`),
    `.startgap-figure.theme-light,.startgap-figure.theme-auto{${properties(light)}}`,
    `.startgap-figure.theme-dark{${properties(dark)}}`,
    `@media (prefers-color-scheme:dark){.startgap-figure.theme-auto{${properties(dark)}}}`,
    `@media print{.startgap-figure.theme-auto,.startgap-figure.theme-dark{${properties(light)}}}`,
  ].join("\n");
}

/** Rules with every colour written out, for programs that read svg but know no custom properties. */
export function resolvedStyleText(theme: Theme): string {
  const palette = theme === "dark" ? dark : light;
  const base = coloured((name) => palette[name]);
  return theme === "auto"
    ? `${base}@media (prefers-color-scheme:dark){${coloured((name) => dark[name])}}`
    : base;
}

function coloured(colour: (name: keyof Palette) => string): string {
  const parts = Array.from({ length: partColours }, (_, i) => partRules(i + 1)).join("");
  return (rules + parts).replace(/\$(\w+)/g, (_, name: string) => colour(name as keyof Palette)).trim();
}

function properties(palette: Palette): string {
  return Object.entries(palette)
    .map(([name, colour]) => `--figure-${name}:${colour}`)
    .join(";");
}
