import { readCabinet } from "@startgap/cabinet";
import { protect } from "@startgap/study";
import { describe, expect, it } from "vitest";

const AMPACITY_A: Readonly<Record<string, number>> = { "1.5": 17.5, "2.5": 24, "4": 32, "6": 41, "10": 57 };

describe("IEC 60364-4-43, 433.1 (published, exact)", () => {
  for (const [size, ampacity] of Object.entries(AMPACITY_A)) {
    it(`${size} mm2 may have a fuse of ${ampacity} A or less`, () => {
      for (const rating of [16, 20, 25, 32, 40, 50, 63]) {
        const read = readCabinet({
          startgap: 1,
          title: "a string of lamps",
          parts: [
            { name: "board", is: "supply", voltage: "230 V", frequency: "50 Hz", faultCurrent: "1 kA" },
            { name: "fuse", is: "fuse", fedBy: "board", rating: `${rating} A`, curve: "gG" },
            { name: "wire", is: "cable", fedBy: "fuse", conductor: `${size} mm2 Cu`, length: "20 m" },
            { name: "lamps", is: "load", fedBy: "wire", power: "2 kW" },
          ],
        });
        if ("issues" in read) throw new Error(JSON.stringify(read.issues));
        const report = protect(read.cabinet);
        if ("failed" in report) throw new Error(report.failed);
        expect(report.rules).toBe("IEC 60364");
        const found = report.findings.find((f) => f.finding === "fuse against conductor");
        expect(found?.limit).toBe(ampacity);
        expect(found?.outcome).toBe(rating <= ampacity ? "pass" : "fail");
      }
    });
  }
});

describe("IEC 60364-4-43 433.1 and IEC 60269-2", () => {
  const reportOf = (rating: string, curve: string, more: object = {}) => {
    const read = readCabinet({
      startgap: 1,
      title: "a pump",
      parts: [
        { name: "board", is: "supply", voltage: "230 V", frequency: "50 Hz", faultCurrent: "1 kA" },
        { name: "fuse", is: "fuse", fedBy: "board", rating, curve },
        { name: "wire", is: "cable", fedBy: "fuse", conductor: "1.5 mm2 Cu", length: "20 m" },
        {
          ...{ name: "pump", is: "motor", fedBy: "wire", ...more },
          nameplate: { power: "1.5 kW", voltage: "230 V", fullLoadCurrent: "15 A", speed: "2850 rpm" },
        },
      ],
    });
    if ("issues" in read) throw new Error(JSON.stringify(read.issues));
    const report = protect(read.cabinet);
    if ("failed" in report) throw new Error(report.failed);
    return report;
  };

  it("a conductor bears the current it is used for, without a quarter on top: 15 A on 17.5 A (exact)", () => {
    const found = reportOf("16 A", "gG").findings.find((f) => f.finding === "conductor against load");
    expect(found).toMatchObject({ outcome: "pass", value: 15, limit: 17.5 });
  });

  it("an aM fuse is not passed as overload protection of a conductor, whatever its rating", () => {
    const found = reportOf("16 A", "aM").findings.find((f) => f.finding === "fuse against conductor");
    expect(found?.outcome).toBe("caution");
    expect(found?.says).toContain("short circuits only");
    const general = reportOf("16 A", "gG").findings.find((f) => f.finding === "fuse against conductor");
    expect(general?.outcome).toBe("pass");
  });
});
