import { examples } from "@startgap/cabinet";
import { describe, expect, it } from "vitest";
import { fragmentOf, LONGEST_LINK, LONGEST_UNPACKED, linkedIn } from "../src/state/link.ts";

describe("a cabinet in a link", () => {
  for (const { key, text } of examples) {
    it(`${key} comes back as it was, with its delay, and fits`, async () => {
      const fragment = await fragmentOf({ text, delay_s: 4.5 });
      expect(fragment!.length).toBeLessThan(4000);
      expect(fragment).toMatch(/^#[\w=&.-]+$/);
      expect(await linkedIn(fragment!)).toEqual({ text, delay_s: 4.5 });
    });
  }

  it("keeps every character, whatever script it is in", async () => {
    const text = JSON.stringify({ title: "مخزن <b>&amp; 冷蔵庫 \u{1F50C}" });
    expect(await linkedIn((await fragmentOf({ text, delay_s: null }))!)).toEqual({ text, delay_s: null });
  });

  it("a cabinet that would make too long a link is refused", async () => {
    const noise = Array.from({ length: 30_000 }, (_, i) =>
      ((i * 7919 * (i % 97)) % 65_521).toString(36),
    ).join("");
    expect(await fragmentOf({ text: noise, delay_s: null })).toBeNull();
  });

  it("a small link that would unpack into a huge text is cut off", async () => {
    const stream = new Blob(["a".repeat(40 * LONGEST_UNPACKED)]).stream();
    const packed = await new Response(stream.pipeThrough(new CompressionStream("deflate-raw"))).arrayBuffer();
    const letters = Buffer.from(packed).toString("base64url");
    expect(letters.length).toBeLessThan(LONGEST_LINK);
    expect(await linkedIn(`#cabinet=${letters}`)).toMatch(/damaged/);
  });

  it("damage is told, other fragments are left alone, a delay that is none is dropped", async () => {
    const fragment = (await fragmentOf({ text: "{}", delay_s: null }))!;
    expect(await linkedIn("#cabinet=%%%")).toMatch(/damaged/);
    expect(await linkedIn(`#cabinet=${"A".repeat(LONGEST_LINK + 1)}`)).toMatch(/longer/);
    expect(await linkedIn("#cabinet=notdeflate")).toMatch(/damaged/);
    expect(await linkedIn("#elsewhere")).toBeNull();
    expect(await linkedIn("")).toBeNull();
    for (const delay of ["-1", "1e9", "NaN", "", "99999"])
      expect(await linkedIn(`${fragment}&delay=${delay}`)).toEqual({ text: "{}", delay_s: null });
  });
});
