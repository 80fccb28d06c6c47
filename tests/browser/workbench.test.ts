import { describe } from "vitest";
import { dragTests } from "./drag.ts";
import { useBench } from "./support/bench.ts";

/** One build and one browser serve every walk through the page. */
describe("the workbench in a browser", () => {
  const bench = useBench();
  describe("the second start", () => dragTests(bench));
});
