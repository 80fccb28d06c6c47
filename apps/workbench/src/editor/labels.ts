const words: Readonly<Record<string, string>> = {
  is: "kind",
  r: "resistance",
  x: "reactance",
  xOverR: "X over R",
};

/** A key of the file in words: "fullLoadCurrent" is "full load current". */
export const labelOf = (key: string | number): string =>
  typeof key === "number"
    ? `${key + 1}.`
    : (words[key] ?? key.replace(/[A-Z]/g, (letter) => ` ${letter.toLowerCase()}`));
