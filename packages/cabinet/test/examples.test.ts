import { execFileSync } from "node:child_process";
import { readdirSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { examples, issueText, parseCabinet } from "@startgap/cabinet";
import { build } from "vite";
import { describe, expect, it } from "vitest";

const here = fileURLToPath(new URL("..", import.meta.url));
const root = fileURLToPath(new URL("../../..", import.meta.url));

const cabinetOf = (text: string) => {
  const read = parseCabinet(text);
  if ("issues" in read) throw new Error(read.issues.map(issueText).join("\n"));
  return read.cabinet;
};

describe("the examples", () => {
  it("are the files in the folder of examples", () => {
    const files = readdirSync(`${here}/examples`).sort();
    expect(examples.map((one) => `${one.key}.cabinet.json`).sort()).toEqual(files);
    for (const { key, text, title } of examples) {
      const content = JSON.parse(readFileSync(`${here}/examples/${key}.cabinet.json`, "utf8"));
      expect(JSON.parse(text)).toEqual(content);
      expect(title).toBe(content.title);
    }
  });

  it.each(examples.map((one) => one.key))("%s can be read", (key) => {
    const cabinet = cabinetOf(examples.find((one) => one.key === key)!.text);
    expect(cabinet.circuit.parts.length).toBeGreaterThan(1);
    const names = cabinet.circuit.parts.map((part) => part.name);
    for (const part of cabinet.circuit.parts) {
      if (part.is !== "supply") expect(names.indexOf(part.fedBy)).toBeLessThan(names.indexOf(part.name));
    }
    for (const value of numbersIn(cabinet.circuit)) expect(value).not.toBeNaN();
  });

  it("quarter-horse takes nothing for granted", () => {
    const cabinet = cabinetOf(examples.find((one) => one.key === "quarter-horse")!.text);
    expect(cabinet.assumptions).toEqual([]);
    expect(cabinet.notes).toEqual([]);
  });

  it("come along with the package under tsx", () => {
    const script = `import { examples } from "@startgap/cabinet"; process.stdout.write(examples.map((one) => one.key).join());`;
    const out = execFileSync(`${root}/node_modules/.bin/tsx`, ["--eval", script], {
      cwd: root,
      encoding: "utf8",
    });
    expect(out).toBe(examples.map((one) => one.key).join());
  });

  it("come along with the package in a bundle for the browser", async () => {
    const entry = `${here}src/examples.ts`;
    const result = await build({
      root,
      configFile: false,
      logLevel: "silent",
      build: { write: false, lib: { entry, formats: ["es"] } },
    });
    const [output] = Array.isArray(result) ? result : [result];
    const code = (output as { output: { code?: string }[] }).output.map((chunk) => chunk.code ?? "").join("");
    for (const { title } of examples) expect(code).toContain(title);
    expect(code).not.toContain("node:");
  });
});

function numbersIn(value: unknown): number[] {
  if (typeof value === "number") return [value];
  return typeof value === "object" && value !== null ? Object.values(value).flatMap(numbersIn) : [];
}
