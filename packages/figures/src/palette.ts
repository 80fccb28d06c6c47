/**
 * Colours of the figures. The hues follow the set that Okabe and Ito published for readers who see colours differently
 * ("Color Universal Design", 2008), darkened on light paper and lightened on dark paper until words in them can be
 * read. Nothing is told by colour alone: cases differ in their dashes, verdicts in their shapes, parts in their number.
 * Checked by test/palette.test.ts: contrast of words 4.5 to 1 and of lines 3 to 1 (WCAG 2.2, 1.4.3 and 1.4.11), and
 * distance of the three cases under simulated dichromacy.
 */
export type Palette = Readonly<Record<keyof typeof light, string>>;

export const light = {
  paper: "#ffffff",
  ink: "#1d2126",
  soft: "#555c65",
  rule: "#8a929c",
  grid: "#e2e5e9",
  one: "#1d2126",
  together: "#b54800",
  staggered: "#0063a8",
  dim: "#f6f0dc",
  drop: "#eddfb4",
  stall: "#dfc57f",
  range: "#e6f4ee",
  pass: "#00704f",
  caution: "#8a6400",
  fail: "#b33100",
  link: "#dbe6f2",
  part1: "#0072b2",
  part2: "#bb5200",
  part3: "#007d5a",
  part4: "#a84f82",
  part5: "#856b00",
  part6: "#23789f",
  part7: "#555c65",
};

export const dark: Palette = {
  paper: "#15191e",
  ink: "#e9ecef",
  soft: "#aab2bb",
  rule: "#7b848e",
  grid: "#2b3138",
  one: "#e9ecef",
  together: "#f59b4c",
  staggered: "#62b8ef",
  dim: "#26241b",
  drop: "#3a331c",
  stall: "#544619",
  range: "#12291f",
  pass: "#45c79b",
  caution: "#e3b62b",
  fail: "#ff8355",
  link: "#22364a",
  part1: "#4fa8dd",
  part2: "#f08a3c",
  part3: "#2fbf93",
  part4: "#dd8fbd",
  part5: "#cfb02e",
  part6: "#8fd0f5",
  part7: "#aab2bb",
};

/** How many colours there are for parts; past them the first returns with another dash and marker. */
export const partColours = 7;
