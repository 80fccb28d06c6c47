import { type Cabinet, examples, parseCabinet } from "@startgap/cabinet";

export function exampleNamed(key: string): Cabinet {
  const read = parseCabinet(examples.find((example) => example.key === key)?.text ?? "");
  if ("issues" in read) throw new Error(`bad example: ${key}`);
  return read.cabinet;
}
