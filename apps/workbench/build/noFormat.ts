/** The figures write their own numbers: nothing may ask d3's scales for it. */
const unused = (): never => {
  throw new RangeError("invalid label: by the scale (expected one that the figure writes)");
};

export {
  unused as format,
  unused as formatPrefix,
  unused as formatSpecifier,
  unused as precisionFixed,
  unused as precisionPrefix,
  unused as precisionRound,
};
