import fc from "fast-check";
import { JSDOM } from "jsdom";
import { describe, expect, it } from "vitest";
import { html, readable, trusted } from "../src/report/markup.ts";

const bodyOf = (markup: string): HTMLElement =>
  new JSDOM(`<!doctype html><body>${markup}`).window.document.body;

describe("markup", () => {
  it("keeps words words in text and in quoted attributes, whatever they are (invariant)", () => {
    fc.assert(
      fc.property(fc.string({ unit: "binary", maxLength: 60 }), (text) => {
        const body = bodyOf(html`<p title="${text}">${text}</p>`.markup);
        expect(body.children).toHaveLength(1);
        expect(body.firstElementChild?.children).toHaveLength(0);
        expect(body.firstElementChild?.attributes).toHaveLength(1);
        expect(body.textContent).toBe(readable(text));
        expect(body.firstElementChild?.getAttribute("title")).toBe(readable(text));
      }),
      { numRuns: 300 },
    );
  });

  it("takes markup as it is, alone and in lists, and null as nothing", () => {
    const items = ["a & b", trusted("<b>c</b>"), null, [1, "<"]];
    expect(html`<p>${items}</p>`.markup).toBe("<p>a &amp; b<b>c</b>1&lt;</p>");
  });

  it("is not fooled by a record of the reader's that calls itself markup", () => {
    const said: unknown = JSON.parse('{ "markup": "<script>" }');
    expect(html`${String(said)}`.markup).toBe("[object Object]");
  });

  it("makes blanks of control characters and lone surrogates, and drops marks that turn the direction", () => {
    expect(readable("a\u0000b\u0085c\ud800d\uffffe")).toBe("a b c d e");
    expect(readable("a\u202eb\u2066c\u200fd\u061c")).toBe("abcd");
    expect(readable("\u0645\u0642\u0628\u0633 \u{1f44d}\u200d\u{1f3fd}")).toBe(
      "\u0645\u0642\u0628\u0633 \u{1f44d}\u200d\u{1f3fd}",
    );
  });
});
