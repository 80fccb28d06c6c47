import type { Reporter, TestModule } from "vitest/node";

/** Tests of one file by outcome; a file that could not be loaded counts as one failure. */
function outcomes(module: TestModule): string[] {
  const states = [...module.children.allTests()].map((test) => test.result().state);
  const broken = states.length === 0 && module.errors().length > 0;
  return broken ? ["failed"] : states;
}

/** The last line of a run, for people and for programs that count: "412 passed, 0 failed". */
export default function tally(): Reporter {
  return {
    onTestRunEnd(modules, unhandled) {
      const states = modules.flatMap(outcomes);
      const passed = states.filter((state) => state === "passed").length;
      const failed = states.filter((state) => state === "failed").length + unhandled.length;
      process.stdout.write(`${passed} passed, ${failed} failed\n`);
    },
  };
}
