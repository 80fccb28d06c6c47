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
