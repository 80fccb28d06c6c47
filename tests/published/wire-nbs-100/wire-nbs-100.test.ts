import { conductorNamed, conductorResistance_ohmPerM } from "@startgap/cabinet";
import { describe, it } from "vitest";
import { expectPrinted } from "../transformers-support/printed.ts";
import data from "./data.json";

describe("NBS Handbook 100 (from memory)", () => {
  for (const { conductor, ohmPerKm, ohmPerKft } of data.rows) {
    it(`${conductor}, solid, 20 degC (published, print)`, () => {
      const wire = conductorNamed(conductor);
      if ("path" in wire) throw new Error(wire.expected);
      const r_ohmPerM = conductorResistance_ohmPerM(wire, 20, "solid");
      expectPrinted(1000 * r_ohmPerM, ohmPerKm);
      expectPrinted(304.8 * r_ohmPerM, ohmPerKft);
    });
  }
});
