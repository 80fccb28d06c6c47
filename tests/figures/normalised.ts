/** Figures as text that only differs when the picture does. */

/** Numbers in attributes to one decimal, ids numbered in the order in which they appear; words as they are. */
export function normalised(svg: string): string {
  const ids = new Map<string, string>();
  const idOf = (id: string) => {
    if (!ids.has(id)) ids.set(id, `id${ids.size + 1}`);
    return ids.get(id)!;
  };
  return svg.replace(/ ([\w-]+)="([^"]*)"/g, (whole, name: string, value: string) => {
    if (name === "version") return whole;
    const isId = name === "id" || name === "aria-labelledby" || name === "aria-describedby";
    return ` ${name}="${isId ? idOf(value) : rounded(value)}"`;
  });
}

function rounded(value: string): string {
  return value.replace(/\d+\.\d+(?:e[-+]?\d+)?/g, (number) => String(Math.round(Number(number) * 10) / 10));
}
