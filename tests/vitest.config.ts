import { defineConfig } from "vitest/config";
import tally from "./support/tally.ts";

/** Packages run from source; any console call in a test fails it (support/silence.ts). */
export default defineConfig({
  root: new URL("..", import.meta.url).pathname,
  test: {
    include: ["packages/*/test/**/*.test.ts", "apps/*/test/**/*.test.ts", "tests/**/*.test.ts"],
    setupFiles: ["tests/support/silence.ts"],
    reporters: ["default", tally()],
    testTimeout: 60_000,
    hookTimeout: 120_000,
    // On a busy machine a browser takes its time.
    expect: { poll: { timeout: 10_000 } },
  },
});
