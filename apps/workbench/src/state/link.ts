/** A cabinet in the fragment of a link: packed, in letters that need no escaping, and bounded both ways. */

export interface Linked {
  readonly text: string;
  readonly delay_s: number | null;
}

/** Longest packed cabinet in a link, in characters: browsers and mail programs pass so much on. */
export const LONGEST_LINK = 16_000;
/** Longest cabinet that a link is unpacked into. */
export const LONGEST_UNPACKED = 200_000;

/** Fragment that carries a cabinet; null when it is too large for a link. */
export async function fragmentOf({ text, delay_s }: Linked): Promise<string | null> {
  const packed = lettersOf(
    await throughStream(new TextEncoder().encode(text), new CompressionStream("deflate-raw")),
  );
  if (packed.length > LONGEST_LINK || text.length > LONGEST_UNPACKED) return null;
  return `#cabinet=${packed}${delay_s === null ? "" : `&delay=${delay_s}`}`;
}

/** The cabinet in a fragment; null when it carries none; a sentence when it cannot be unpacked. */
export async function linkedIn(fragment: string): Promise<Linked | string | null> {
  const fields = new URLSearchParams(fragment.replace(/^#/, ""));
  const packed = fields.get("cabinet");
  if (packed === null) return null;
  if (packed.length > LONGEST_LINK) return "The link is longer than any that this page makes.";
  const bytes = bytesOf(packed);
  if (bytes === null) return "The link is damaged: part of it may have been lost on the way.";
  try {
    const text = new TextDecoder("utf-8", { fatal: true }).decode(
      await throughStream(bytes, new DecompressionStream("deflate-raw")),
    );
    return { text, delay_s: delayOf(fields.get("delay")) };
  } catch {
    return "The link is damaged: part of it may have been lost on the way.";
  }
}

function delayOf(text: string | null): number | null {
  const delay_s = text === null || !/^\d{1,4}(\.\d{1,3})?$/.test(text) ? Number.NaN : Number(text);
  return Number.isFinite(delay_s) ? delay_s : null;
}

/** Everything that comes out of a stream, or an error once it is more than a link may unpack into. */
async function throughStream(
  bytes: Uint8Array<ArrayBuffer>,
  stream: GenericTransformStream,
): Promise<Uint8Array> {
  const reader = new Blob([bytes])
    .stream()
    .pipeThrough(stream as ReadableWritablePair<Uint8Array, Uint8Array<ArrayBuffer>>)
    .getReader();
  const chunks: Uint8Array[] = [];
  let length = 0;
  for (let next = await reader.read(); !next.done; next = await reader.read()) {
    length += next.value.length;
    if (length > 4 * LONGEST_UNPACKED) {
      await reader.cancel();
      throw new RangeError("too long");
    }
    chunks.push(next.value);
  }
  const whole = new Uint8Array(length);
  let at = 0;
  for (const chunk of chunks) {
    whole.set(chunk, at);
    at += chunk.length;
  }
  return whole;
}

const lettersOf = (bytes: Uint8Array): string =>
  btoa(Array.from(bytes, (byte) => String.fromCharCode(byte)).join(""))
    .replaceAll("+", "-")
    .replaceAll("/", "_")
    .replaceAll("=", "");

function bytesOf(letters: string): Uint8Array<ArrayBuffer> | null {
  if (!/^[\w-]+$/.test(letters)) return null;
  try {
    const raw = atob(letters.replaceAll("-", "+").replaceAll("_", "/"));
    return Uint8Array.from(raw, (character) => character.charCodeAt(0));
  } catch {
    return null;
  }
}
