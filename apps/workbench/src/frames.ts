/** A function that runs `draw` once in the next frame however often it was called. */
export function inNextFrame(draw: () => void): () => void {
  let waiting = false;
  return () => {
    if (waiting) return;
    waiting = true;
    requestAnimationFrame(() => {
      waiting = false;
      draw();
    });
  };
}

/** No figure is drawn narrower: what does not fit is cut off. */
const NARROWEST_px = 280;

/** Width for a figure in an element, whole pixels; 0 where the element is not shown. */
export function roomIn(element: HTMLElement): number {
  const width = Math.floor(element.clientWidth);
  return width === 0 ? 0 : Math.max(width, NARROWEST_px);
}

/** Tells the width for a figure in an element, now and whenever it changes. */
export function watchWidth(element: HTMLElement, onWidth: (width: number) => void): void {
  let last = -1;
  new ResizeObserver(() => {
    const width = roomIn(element);
    if (width === last || width === 0) return;
    last = width;
    onWidth(width);
  }).observe(element);
}

/** Tells whenever the page is laid out for paper, and when it is back on the screen. */
export function watchPaper(onChange: (onPaper: boolean) => void): void {
  const paper = matchMedia("print");
  paper.addEventListener("change", () => onChange(paper.matches));
  addEventListener("beforeprint", () => onChange(true));
  addEventListener("afterprint", () => onChange(false));
}

/** Tells whether an element is in sight or nearly so; on paper everything is. `onSight` runs when it comes into sight. */
export function watchSight(element: HTMLElement, onSight: () => void): () => boolean {
  let inSight = false;
  let onPaper = false;
  new IntersectionObserver(
    (entries) => {
      inSight = entries[entries.length - 1].isIntersecting;
      if (inSight) onSight();
    },
    { rootMargin: "200px" },
  ).observe(element);
  watchPaper((now) => {
    onPaper = now;
    if (now) onSight();
  });
  return () => inSight || onPaper;
}
