import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { malformed } from "./malformed.ts";
import { perform } from "./stage.ts";

const FILE = "spoilt.cabinet.json";
const commands = [
  ["check", FILE, "--json", "--traces", "traces.csv"],
  ["check", FILE],
  ["stagger", FILE, "--json"],
  ["motor", FILE],
  ["fuse", FILE, "--json"],
  ["plot", FILE, "-o", "out.svg"],
];

describe("malformed cabinet files", () => {
  it("500 of them, each refused with its place, nothing printed, nothing written, no stack", async () => {
    const command = fc.constantFrom(...commands);
    await fc.assert(
      fc.asyncProperty(malformed, command, async ({ text }, argv) => {
        const { status, out, err, written } = await perform(argv, { files: { [FILE]: text } });
        expect({ status, out, written }).toEqual({ status: 2, out: "", written: {} });
        const [head, ...issues] = err.trimEnd().split("\n");
        expect(head).toMatch(/^startgap: spoilt\.cabinet\.json: \d+ errors?; nothing was written$/);
        expect(issues.length).toBeGreaterThan(0);
        for (const issue of issues) expect(issue).toMatch(/^ {2}(\S.*: )?expected \S.*; received \S/);
        // biome-ignore lint/suspicious/noControlCharactersInRegex: none may reach a terminal
        expect(err).not.toMatch(/\n\s+at |\[object|undefined|[\u0000-\u0009\u000b-\u001f\u007f]/);
      }),
      { numRuns: 500, seed: 20_11 },
    );
  });
});
