import { describe, expect, it } from "vitest";
import { reportHtml } from "../src/index.ts";
import { cabinetOf, exampleText, inputOf, parsed, renamed } from "./reports.ts";

const long = "x".repeat(500);

const names: Readonly<Record<string, string>> = {
  script: "<script>alert(1)</script>",
  "closing tags": "</td></tr></table></main></style></title><h1>",
  "an attribute": '" onmouseover="alert(1)" x="',
  "an image": "<img src=x onerror=alert(1)>",
  entities: "&lt;b&gt; &amp;amp; &#60;",
  "a comment": "<!-- --> ]]> <![CDATA[",
  "a template": "$" + "{alert(1)} {{x}} `",
  "500 letters": long,
  "500 tags": "<b>".repeat(167),
  "right to left": "\u0645\u0642\u0627\u0628\u0633 \u0627\u0644\u0648\u0631\u0634\u0629",
  "turned direction": "\u202egro.live\u2066 \u200f",
  "control characters": "a\u0000b\u001bc\u0085d\u2028e",
  "lone surrogates": "a\ud800b\udc00c",
};

/** Names of the elements in order; drawings may shorten a name and then explain it, so they are looked at alone. */
const skeleton = (page: Document): string[] =>
  [...page.querySelectorAll("*")]
    .filter((one) => one.closest("svg") === null)
    .map(({ localName }) => localName);

const drawn = new Set(["svg", "title", "desc", "rect", "g", "path", "text", "tspan", "circle", "line"]);

describe("a report of a cabinet whose title and parts are called by", () => {
  const plain = inputOf(cabinetOf(exampleText("ice-shed")));
  const usual = skeleton(parsed(reportHtml(plain)));

  for (const [kind, name] of Object.entries(names)) {
    it(`${kind} has the same elements as one with usual names`, () => {
      const { page, ...rest } = plain;
      const other = renamed(renamed(rest, "compressor 1", name), plain.cabinet.title, `title ${name}`);
      const report = parsed(reportHtml({ ...other, page, digest: plain.digest }));
      expect(skeleton(report)).toEqual(usual);
      const inside = [...report.querySelectorAll("svg, svg *")].map(({ localName }) => localName);
      expect(inside.filter((one) => !drawn.has(one))).toEqual([]);
      const handlers = [...report.querySelectorAll("*")].flatMap((one) =>
        one.getAttributeNames().filter((attribute) => /^on/i.test(attribute)),
      );
      expect(handlers).toEqual([]);
    });
  }

  it("an own reading direction keeps it to itself", () => {
    const { page, ...rest } = plain;
    const name = names["right to left"];
    const report = parsed(reportHtml({ ...renamed(rest, "compressor 1", name), page, digest: plain.digest }));
    const isolated = [...report.querySelectorAll("#findings bdi")].map(({ textContent }) => textContent);
    expect(isolated).toContain(name);
    expect(report.body.textContent).not.toMatch(/[\u202a-\u202e\u2066\u2067]/);
  });
});
