/** SHA-256 (FIPS 180-4), in plain script: a page that comes over plain HTTP is not given the browser's own. */

const primes: readonly number[] = (() => {
  const found: number[] = [];
  for (let n = 2; found.length < 64; n++) if (found.every((prime) => n % prime !== 0)) found.push(n);
  return found;
})();

/** The first 32 bits behind the point of a root. */
const behindPoint = (root: number): number => Math.floor((root - Math.floor(root)) * 2 ** 32) | 0;

const constants = Int32Array.from(primes, (prime) => behindPoint(Math.cbrt(prime)));
const beginning = primes.slice(0, 8).map((prime) => behindPoint(Math.sqrt(prime)));

const turned = (word: number, bits: number): number => (word >>> bits) | (word << (32 - bits));

/** The message, a one, zeros, and its length in bits: whole blocks of 64 bytes. */
function padded(bytes: Uint8Array): DataView {
  const whole = new Uint8Array(Math.ceil((bytes.length + 9) / 64) * 64);
  whole.set(bytes);
  whole[bytes.length] = 0x80;
  const view = new DataView(whole.buffer);
  view.setUint32(whole.length - 8, Math.floor(bytes.length / 2 ** 29));
  view.setUint32(whole.length - 4, (bytes.length * 8) % 2 ** 32);
  return view;
}

/** The 64 words of a block. */
function schedule(view: DataView, at: number, words: Int32Array): void {
  for (let i = 0; i < 16; i++) words[i] = view.getInt32(at + 4 * i);
  for (let i = 16; i < 64; i++) {
    const [a, b] = [words[i - 15], words[i - 2]];
    const small = turned(a, 7) ^ turned(a, 18) ^ (a >>> 3);
    const large = turned(b, 17) ^ turned(b, 19) ^ (b >>> 10);
    words[i] = (words[i - 16] + small + words[i - 7] + large) | 0;
  }
}

function mixed(state: readonly number[], words: Int32Array): number[] {
  let [a, b, c, d, e, f, g, h] = state;
  for (let i = 0; i < 64; i++) {
    const chosen = (e & f) ^ (~e & g);
    const most = (a & b) ^ (a & c) ^ (b & c);
    const one = h + (turned(e, 6) ^ turned(e, 11) ^ turned(e, 25)) + chosen + constants[i] + words[i];
    const two = (turned(a, 2) ^ turned(a, 13) ^ turned(a, 22)) + most;
    [h, g, f, e, d, c, b, a] = [g, f, e, (d + one) | 0, c, b, a, (one + two) | 0];
  }
  return [a, b, c, d, e, f, g, h].map((word, i) => (word + state[i]) | 0);
}

/**
 * SHA-256 of a text as UTF-8: 64 hexadecimal digits.
 *
 * Source: FIPS 180-4, section 6.2. Checked by apps/workbench/test/sha256.test.ts against Node's own.
 */
export function sha256(text: string): string {
  const view = padded(new TextEncoder().encode(text));
  const words = new Int32Array(64);
  let state: readonly number[] = beginning;
  for (let at = 0; at < view.byteLength; at += 64) {
    schedule(view, at, words);
    state = mixed(state, words);
  }
  return state.map((word) => (word >>> 0).toString(16).padStart(8, "0")).join("");
}
