/** Receives the solution as it is made: at arc ends, step ends and, if asked, inside steps. */
export interface Recorder<M> {
  /** True to be called at the solver's interior points too, not at step ends alone. */
  readonly interior: boolean;
  sample(t: number, y: readonly number[], mode: M): void;
}

/** Columns that grow by doubling; nothing else is allocated while recording. */
export interface Columns {
  readonly length: number;
  push(t: number, values: ArrayLike<number>): void;
  time(): Float64Array;
  column(index: number): Float64Array;
}

export function columns(width: number): Columns {
  const stride = width + 1;
  let capacity = 256;
  let data = new Float64Array(capacity * stride);
  let length = 0;
  const pick = (offset: number): Float64Array => {
    const out = new Float64Array(length);
    for (let row = 0; row < length; row++) out[row] = data[row * stride + offset];
    return out;
  };
  return {
    get length() {
      return length;
    },
    push(t, values) {
      if (length === capacity) {
        capacity *= 2;
        const grown = new Float64Array(capacity * stride);
        grown.set(data);
        data = grown;
      }
      const base = length * stride;
      data[base] = t;
      for (let i = 0; i < width; i++) data[base + 1 + i] = values[i];
      length++;
    },
    time: () => pick(0),
    column: (index) => pick(index + 1),
  };
}
