import * as cabinet from "@startgap/cabinet";
import { expect, it } from "vitest";

it("the package exports just these values", () => {
  expect(Object.keys(cabinet).sort()).toEqual([
    "AMBIENT_C",
    "CODE_LETTERS",
    "MOTOR_TYPES",
    "ambientFactor",
    "cabinetSchema",
    "codeLetterOf",
    "codeLetterRange",
    "currentMargin",
    "derated",
    "driveOf",
    "examples",
    "fitMelt",
    "fuseClassNames",
    "fuseFromClass",
    "holdTime_s",
    "issueText",
    "meltOf",
    "motorFromNameplate",
    "parseCabinet",
    "readCabinet",
    "readCurveCsv",
    "usualCodeLetter",
    "variations",
    "writeCabinet",
  ]);
});
