/** Between two numbers, as d3 does it. */
export const interpolateNumber =
  (a: number, b: number) =>
  (t: number): number =>
    a * (1 - t) + b * t;

export const interpolateRound =
  (a: number, b: number) =>
  (t: number): number =>
    Math.round(a * (1 - t) + b * t);

export { interpolateNumber as interpolate };

const unused = (): never => {
  throw new RangeError("invalid scale: in pieces (expected one from number to number)");
};

export { unused as piecewise };
