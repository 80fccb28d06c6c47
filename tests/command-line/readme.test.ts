import { readFileSync } from "node:fs";
import { parseCabinet } from "@startgap/cabinet";
import { describe, expect, it } from "vitest";
import { perform } from "./stage.ts";

const read = (name: string): string => readFileSync(new URL(`../../${name}`, import.meta.url), "utf8");
const readme = read("README.md");
const scripts: Record<string, string> = JSON.parse(read("package.json")).scripts;

describe("README", () => {
  it("shows a cabinet file that is read as it stands, but for the plate left out", () => {
    const shown = JSON.parse(/```json\n(.*?)```/s.exec(readme)?.[1] ?? "");
    const motors = shown.parts.filter((part: { is: string }) => part.is === "motor");
    motors[1].nameplate = motors[0].nameplate;
    motors[1].drives = motors[0].drives;
    expect(parseCabinet(JSON.stringify(shown))).toHaveProperty("cabinet");
  });

  it("lists the commands that there are", async () => {
    const { out } = await perform(["--help"]);
    const listed = [...readme.matchAll(/^\| `startgap (\w+)/gm)].map(([, name]) => name);
    const real = [...out.matchAll(/^ {2}(\w+) .*$/gm)]
      .map(([, name]) => name)
      .filter((name) => !["help", "startgap"].includes(name));
    expect(listed.sort()).toEqual(real.sort());
  });

  it("names the figures that there are", async () => {
    const { err } = await perform(["plot", "x", "-o", "-", "--figure", "?"]);
    const real = /--figure: expected one of ([^;]*);/.exec(err)?.[1];
    expect(readme).toContain(`\`--figure\` ${real}`);
  });

  for (const name of ["README.md", "DEVELOPERS.md"]) {
    it(`${name} calls only scripts that there are`, () => {
      const called = [...read(name).matchAll(/npm run (\w+)/g)].map(([, script]) => script);
      expect(called.filter((script) => scripts[script] === undefined)).toEqual([]);
    });
  }
});
