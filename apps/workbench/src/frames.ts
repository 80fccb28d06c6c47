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

/** Tells the width of an element, now and whenever it changes, rounded down to whole pixels. */
export function watchWidth(element: HTMLElement, onWidth: (width: number) => void): void {
  let last = -1;
  new ResizeObserver(() => {
    const width = Math.floor(element.clientWidth);
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
