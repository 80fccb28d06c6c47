import { svgText } from "../svgText.ts";
import type { ReportInput } from "./input.ts";
import { html, type Markup, trusted } from "./markup.ts";
import { type Picture, picturesOf } from "./pictures.ts";

/** CSS px: the width between the margins of A4 and of Letter, so that words print at the size that they were set in. */
const WIDTH = 690;

/** A figure as markup; the rules that it would carry stand once at the head of the report. */
function drawing(node: SVGSVGElement): Markup {
  for (const style of node.querySelectorAll("style")) style.remove();
  return trusted(svgText(node).replace(/^<\?xml[^>]*>\n/, ""));
}

const figureOf = ({ caption, draw }: Picture, i: number): Markup =>
  html`<figure>
${drawing(draw({ width: WIDTH, theme: "light", prefix: `figure-${i + 1}` }))}<figcaption><strong>Figure ${i + 1}.</strong> ${caption}</figcaption>
</figure>
`;

/** Every figure, in the reader's document, with its caption. */
export const figuresSection = (input: ReportInput): Markup =>
  html`<section id="figures" aria-labelledby="figures-heading">
<h2 id="figures-heading">Figures</h2>
${picturesOf(input).map(figureOf)}</section>
`;
