/**
 * Figures carry their style with them, so that they stand alone as files. The page's policy allows no style
 * inside the page: here it moves into one sheet that all of them share.
 */
let adopted = false;

export function adoptStyle<T extends SVGSVGElement>(figure: T): T {
  const style = figure.querySelector("style");
  if (style === null) return figure;
  if (!adopted) {
    const sheet = new CSSStyleSheet();
    sheet.replaceSync(style.textContent ?? "");
    document.adoptedStyleSheets = [...document.adoptedStyleSheets, sheet];
    adopted = true;
  }
  style.remove();
  return figure;
}
