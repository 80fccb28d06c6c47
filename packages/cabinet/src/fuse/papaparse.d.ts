/** The part of papaparse 5 that is used here; the package brings no types. */
declare module "papaparse" {
  interface ParseOptions {
    readonly delimiter: string;
  }
  interface ParseResult {
    readonly data: string[][];
  }
  const Papa: { parse(text: string, options: ParseOptions): ParseResult };
  export default Papa;
}
