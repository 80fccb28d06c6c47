import { describe } from "vitest";
import { accessTests } from "./access.ts";
import { aloneTests } from "./alone.ts";
import { clientTests } from "./client.ts";
import { dragTests } from "./drag.ts";
import { editTests } from "./edit.ts";
import { fileTests } from "./files.ts";
import { hostileTests } from "./hostile.ts";
import { keyboardTests } from "./keyboard.ts";
import { mapTests } from "./map.ts";
import { narrowTests } from "./narrow.ts";
import { newcomerTests } from "./newcomer.ts";
import { offerTests } from "./offers.ts";
import { printTests } from "./print.ts";
import { useBench } from "./support/bench.ts";
import { waveTests } from "./wave.ts";

/** One build and one browser serve every walk through the page. */
describe("the workbench in a browser", () => {
  const bench = useBench();
  describe("a newcomer", () => newcomerTests(bench));
  describe("the second start", () => dragTests(bench));
  describe("the delay map", () => mapTests(bench));
  describe("cycle by cycle", () => waveTests(bench));
  describe("editing", () => editTests(bench));
  describe("files and links", () => fileTests(bench));
  describe("report and table", () => offerTests(bench));
  describe("hostile names", () => hostileTests(bench));
  describe("the client view", () => clientTests(bench));
  describe("on paper", () => printTests(bench));
  describe("in a narrow window", () => narrowTests(bench));
  describe("by keyboard", () => keyboardTests(bench));
  describe("for everybody", () => accessTests(bench));
  describe("on its own", () => aloneTests(bench));
});
