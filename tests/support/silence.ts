import { afterEach, beforeEach, expect, vi } from "vitest";

/** Library code prints nothing: a console call during a test fails that test. */
const methods = ["log", "info", "warn", "error", "debug"] as const;

beforeEach(() => {
  for (const method of methods) vi.spyOn(console, method);
});

afterEach(() => {
  for (const method of methods) expect(vi.mocked(console[method]).mock.calls).toEqual([]);
  vi.restoreAllMocks();
});
