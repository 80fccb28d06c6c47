import { issueText, parseCabinet, readCabinet } from "@startgap/cabinet";
import { describe, expect, it } from "vitest";
import {
  cabinetOf,
  circuit,
  file,
  issuesOf,
  type Json,
  load,
  midpoint,
  motor,
  paths,
  supply,
} from "./support/files.ts";

const relay = (more: Json = {}): Json => ({
  name: "relay",
  is: "delay relay",
  fedBy: "panel",
  delay: "5 s",
  ...more,
});
const contactor = (more: Json = {}): Json => ({
  name: "contactor",
  is: "contactor",
  fedBy: "panel",
  ...more,
});
const cable = (more: Json = {}): Json => ({
  name: "feeder",
  is: "cable",
  fedBy: "panel",
  impedance: { r: "0.1 ohm", x: "0 ohm" },
  ...more,
});

/** What is wrong, where it is reported, and what the message must contain. */
const table: readonly [string, unknown, string, string][] = [
  ["no object", 7, "", "a cabinet file"],
  ["no object", null, "", "received null"],
  ["no object", [], "", "a list of 0"],
  ["no title", { startgap: 1, parts: [supply(), load()] }, "title", "received nothing"],
  ["no parts", { startgap: 1, title: "x" }, "parts", "1 to 200 parts"],
  ["an empty list of parts", file(), "parts", "received a list of 0"],
  ["parts that are no list", { startgap: 1, title: "x", parts: "none" }, "parts", "a list of"],
  ["a part that is no object", file(supply(), "lamp"), "parts[1]", "a kind of part, as"],
  ["no version", { title: "x", parts: [supply()] }, "startgap", "received nothing"],
  ["version as text", { ...file(supply()), startgap: "1" }, "startgap", `received "1"`],
  ["version 0", { ...file(supply()), startgap: 0 }, "startgap", "reads as: 1"],
  ["a later version", { ...file("?"), startgap: 2 }, "startgap", "get a later startgap"],
  ["an unknown top key", { ...file(supply()), titel: "x" }, "titel", "title"],
  ["an unknown key", file(supply(), load({ pwoer: "3 W" })), "parts[1].pwoer", "power"],
  [
    "an unknown key with a near name",
    file(supply(), load({ leag: "first" })),
    "parts[1].leag",
    `did you mean "leg"?`,
  ],
  ["an unknown kind", file(supply(), load({ is: "laod" })), "parts[1].is", `did you mean "load"?`],
  ["no kind", file(supply(), { name: "x" }), "parts[1].is", "received nothing"],
  ["a kind that is no text", file(supply(), { name: "x", is: ["load"] }), "parts[1].is", "a list of 1"],
  ["no name", file(supply(), load({ name: undefined })), "parts[1].name", "received nothing"],
  ["a blank name", file(supply(), load({ name: "  " })), "parts[1].name", "a name of 1 to 60"],
  ["a name with a line end", file(supply(), load({ name: "a\nb" })), "parts[1].name", "a name of 1 to 60"],
  ["two parts of one name", file(supply(), load(), load()), "parts[2].name", `"lamps", as parts[1]`],
  ["no supply", file(cable({ fedBy: "x" }), load()), "parts", "no supply"],
  ["two supplies", file(supply(), supply({ name: "other" })), "parts[1].is", "one supply in a cabinet"],
  ["a supply that is fed", file(supply({ fedBy: "x" }), load()), "parts[0].fedBy", "one of the keys"],
  ["no feeder", file(supply(), load({ fedBy: undefined })), "parts[1].fedBy", "received nothing"],
  ["an unknown feeder", file(supply(), load({ fedBy: "panle" })), "parts[1].fedBy", `did you mean "panel"?`],
  [
    "a motor as a feeder",
    file(supply(), motor(), load({ fedBy: "motor" })),
    "parts[2].fedBy",
    "which is a motor",
  ],
  [
    "a load as a feeder",
    file(supply(), load(), motor({ fedBy: "lamps" })),
    "parts[2].fedBy",
    "which is a load",
  ],
  ["a part that feeds itself", file(supply(), cable({ fedBy: "feeder" })), "parts[1].fedBy", "a loop"],
  [
    "a loop",
    file(supply(), cable({ fedBy: "relay" }), relay({ fedBy: "feeder" }), load({ fedBy: "relay" })),
    "parts[1].fedBy",
    `"feeder" fed by "relay" fed by "feeder"`,
  ],
  [
    "a leg where there is none",
    file(supply(), load({ leg: "second" })),
    "parts[1].leg",
    `"panel" is a supply`,
  ],
  [
    "an unknown leg",
    file(supply(), midpoint(), load({ fedBy: "midpoint", leg: "left" })),
    "parts[2].leg",
    `received "left"`,
  ],
  [
    "a bare number",
    file(supply(), load({ power: 400 })),
    "parts[1].power",
    "text with a unit (W, kW or hp) after the number",
  ],
  [
    "no unit",
    file(supply(), load({ power: "400" })),
    "parts[1].power",
    "text with a unit (W, kW or hp) after the number",
  ],
  ["an unknown unit", file(supply(), load({ power: "400 kv" })), "parts[1].power", "(in W, kW or hp)"],
  ["a near unit", file(supply(), relay({ delay: "5 secs" })), "parts[1].delay", `did you mean "sec"?`],
  ["a negative power", file(supply(), load({ power: "-4 W" })), "parts[1].power", "from 0 W to 100 kW"],
  [
    "a range that reaches below",
    file(supply(), load({ power: "4 W +- 200 %" })),
    "parts[1].power",
    "from 0 W",
  ],
  ["not a number", file(supply(), load({ power: "NaN W" })), "parts[1].power", `received "NaN W"`],
  ["infinity", file(supply(), load({ power: "Infinity W" })), "parts[1].power", `received "Infinity W"`],
  ["overflow", file(supply(), load({ power: "1e999 W" })), "parts[1].power", `received "1e999 W"`],
  ["a huge exponent", file(supply(), load({ power: "1e300 W" })), "parts[1].power", "100 kW"],
  ["minus zero", file(supply(), load({ power: "-0 W" })), "parts[1].power", `received "-0 W"`],
  [
    "NaN for a number",
    file(supply(), load({ powerFactor: Number.NaN })),
    "parts[1].powerFactor",
    "received NaN",
  ],
  [
    "minus zero for a number",
    file(supply(), load({ powerFactor: -0 })),
    "parts[1].powerFactor",
    "received -0",
  ],
  ["a low frequency", file(supply({ frequency: "25 Hz" })), "parts[0].frequency", "45 Hz to 65 Hz"],
  ["a high voltage", file(supply({ voltage: "11 kV" })), "parts[0].voltage", "20 V to 600 V"],
  ["null", file(supply({ voltage: null })), "parts[0].voltage", "received null"],
  [
    "no way of stating it",
    file(supply({ impedance: undefined })),
    "parts[0]",
    `one of "faultCurrent", "impedance"`,
  ],
  [
    "two ways of stating it",
    file(supply({ faultCurrent: "1 kA" })),
    "parts[0].impedance",
    `no "impedance" beside "faultCurrent"`,
  ],
  [
    "half a way",
    file(supply(), cable({ impedance: undefined, conductor: "12 AWG Cu" })),
    "parts[1].length",
    `beside "conductor"`,
  ],
  [
    "half an impedance",
    file(supply({ impedance: { r: "1 ohm" } })),
    "parts[0].impedance.x",
    "received nothing",
  ],
  [
    "a wire that is not made",
    file(supply(), cable({ impedance: undefined, conductor: "13 AWG Cu", length: "3 m" })),
    "parts[1].conductor",
    "did you mean",
  ],
  [
    "a coil fed by nothing",
    file(supply(), contactor({ coil: "24 V" })),
    "parts[1].coilFedBy",
    `beside "coil"`,
  ],
  [
    "a feeder of no coil",
    file(supply(), contactor({ coilFedBy: "panel" })),
    "parts[1].coil",
    `beside "coilFedBy"`,
  ],
  [
    "a coil fed by a motor",
    file(supply(), motor(), contactor({ coil: "24 V", coilFedBy: "motor" })),
    "parts[2].coilFedBy",
    "which is a motor",
  ],
  [
    "a coil fed by an unknown part",
    file(supply(), contactor({ coil: "24 V", coilFedBy: "pannel" })),
    "parts[1].coilFedBy",
    `did you mean "panel"?`,
  ],
  [
    "a coil behind its own contacts",
    file(supply(), contactor({ coil: "240 V", coilFedBy: "contactor" })),
    "parts[1].coilFedBy",
    "live before this contactor closes",
  ],
  [
    "a coil leg where there is none",
    file(supply(), contactor({ coil: "240 V", coilFedBy: "panel", coilLeg: "both" })),
    "parts[1].coilLeg",
    "no leg",
  ],
  [
    "drop-out above pull-in",
    file(supply(), contactor({ coil: "240 V", coilFedBy: "panel", pullIn: "100 V", dropOut: "120 V" })),
    "parts[1].dropOut",
    "below the pull-in voltage of 100 V",
  ],
  [
    "pull-in above the coil's voltage",
    file(supply(), contactor({ coil: "240 V", coilFedBy: "panel", pullIn: "250 V" })),
    "parts[1].pullIn",
    "no higher than the coil's 240 V",
  ],
  [
    "ranges of pull-in and drop-out that meet",
    file(
      supply(),
      contactor({ coil: "24 V", coilFedBy: "panel", pullIn: "15 V +- 20 %", dropOut: "12 V +- 10 %" }),
    ),
    "parts[1].dropOut",
    "below the pull-in voltage of 12 V",
  ],
  [
    "a motor by plate and circuit",
    file(supply(), motor({ nameplate: { voltage: "115 V", power: "1 hp" } })),
    "parts[1].circuit",
    `no "circuit" beside "nameplate"`,
  ],
  [
    "a plate that says too little",
    file(supply(), motor({ circuit: undefined, nameplate: { voltage: "115 V" } })),
    "parts[1].nameplate",
    `"power" or "fullLoadCurrent"`,
  ],
  [
    "an odd number of poles",
    file(supply(), motor({ circuit: circuit({ poles: 3 }) })),
    "parts[1].circuit.poles",
    "received 3",
  ],
  [
    "a rotor without resistance",
    file(supply(), motor({ circuit: circuit({ rotor: { r: "0 ohm", x: "2 ohm" } }) })),
    "parts[1].circuit.rotor.r",
    "above 0",
  ],
  [
    "a negative resistance",
    file(supply(), motor({ circuit: circuit({ main: { r: "-2.4 ohm", x: "2 ohm" } }) })),
    "parts[1].circuit.main.r",
    `received "-2.4 ohm"`,
  ],
  [
    "a capacitor without its winding",
    file(supply(), motor({ circuit: circuit({ auxiliary: undefined }) })),
    "parts[1].circuit.startCapacitor",
    "no auxiliary winding",
  ],
  [
    "a start capacitor for good",
    file(supply(), motor({ circuit: circuit({ switchOpens: undefined }) })),
    "parts[1].circuit.switchOpens",
    "0.75",
  ],
  [
    "a switch that closes above opening",
    file(supply(), motor({ circuit: circuit({ switchCloses: 0.8 }) })),
    "parts[1].circuit.switchCloses",
    "below switchOpens (0.75)",
  ],
  [
    "a low opening without a closing",
    file(supply(), motor({ circuit: circuit({ switchOpens: 0.4 }) })),
    "parts[1].circuit.switchCloses",
    "below switchOpens (0.4)",
  ],
  [
    "an unknown drive",
    file(supply(), motor({ drives: { is: "compresor" } })),
    "parts[1].drives.is",
    `did you mean "compressor"?`,
  ],
  ["one winding", file(supply(), midpoint({ windings: ["120 V"] })), "parts[1].windings", "a list of 1"],
  ["ohms and a ratio", file(supply(), midpoint({ xOverR: 0.5 })), "parts[1].xOverR", "no xOverR"],
  [
    "a load that is a short circuit",
    file(supply(), load({ power: undefined, impedance: { r: "0 ohm", x: "0 ohm" } })),
    "parts[1].impedance",
    "no short circuit",
  ],
];

describe("what is wrong with a file", () => {
  it.each(table)("%s", (_, value, path, says) => {
    const found = issuesOf(value).filter((issue) => issue.path === path);
    expect(paths(value)).toContain(path);
    expect(found.map(issueText).join("\n")).toContain(says);
  });

  it("is not found in a file that is right", () => {
    expect(cabinetOf(file(supply(), load())).notes).toEqual([]);
  });

  it("is reported all at once, sorted by place", () => {
    const bad = file(
      supply({ voltage: 240, frequency: "60" }),
      load({ fedBy: "panle", power: "4 V" }),
      motor({ circuit: circuit({ poles: 5, main: { r: "-1 ohm" } }), leg: "first" }),
      ...Array.from({ length: 9 }, (_, i) => load({ name: `lamp ${i}`, holds: "warmth" })),
    );
    expect(paths(bad)).toEqual([
      "parts[0].frequency",
      "parts[0].voltage",
      "parts[1].fedBy",
      "parts[1].power",
      "parts[2].circuit.main.r",
      "parts[2].circuit.main.x",
      "parts[2].circuit.poles",
      "parts[2].leg",
      ...Array.from({ length: 9 }, (_, i) => `parts[${i + 3}].holds`),
    ]);
  });

  it("is reported of a part behind one that could not be read", () => {
    const bad = file(
      supply({ voltage: "a lot" }),
      motor({ circuit: circuit({ rotor: { r: "0 ohm", x: "1 ohm" } }) }),
    );
    expect(paths(bad)).toEqual(["parts[0].voltage", "parts[1].circuit.rotor.r"]);
  });

  it("is reported of a part whose own values contradict each other, also when the tree is broken", () => {
    const rotor = { r: "0 ohm", x: "1 ohm" };
    const bad = file(
      supply(),
      cable({ fedBy: "relay" }),
      relay({ fedBy: "feeder" }),
      motor({ fedBy: "nobody", circuit: circuit({ rotor }) }),
    );
    expect(paths(bad)).toEqual(["parts[1].fedBy", "parts[3].circuit.rotor.r", "parts[3].fedBy"]);
  });

  it("is not made up of a motor whose frequency is not known", () => {
    const plate = { power: "1 kW", voltage: "230 V", fullLoadCurrent: "8 A", speed: "2850 rpm" };
    const pump = motor({ circuit: undefined, nameplate: plate });
    expect(paths(file(supply({ frequency: "50" }), pump))).toEqual(["parts[0].frequency"]);
    expect(paths(file(pump))).toEqual(["parts", "parts[0].fedBy"]);
  });

  it("includes keys that reach into the language, which are never copied", () => {
    const text = `{"startgap":1,"title":"x","__proto__":{"polluted":1},"parts":[
      {"name":"panel","is":"supply","voltage":"240 V","frequency":"60 Hz",
       "impedance":{"r":"0 ohm","x":"0 ohm","constructor":{"prototype":{"polluted":1}}}},
      {"name":"__proto__","is":"load","fedBy":"panel","power":"1 W"}]}`;
    const read = parseCabinet(text);
    if (!("issues" in read)) throw new Error("was read");
    expect(read.issues.map((issue) => issue.path)).toEqual(["__proto__", "parts[0].impedance.constructor"]);
    expect(({} as Json).polluted).toBeUndefined();
  });

  it("does not take inherited keys for stated ones", () => {
    const inherited = Object.create({ power: "400 W" }) as Json;
    Object.assign(inherited, { name: "lamps", is: "load", fedBy: "panel" });
    expect(paths(file(supply(), inherited))).toEqual(["parts[1]"]);
  });

  it("counts a name of the language as any other name", () => {
    const cabinet = cabinetOf(file(supply(), load({ name: "toString" }), load({ name: "__proto__" })));
    expect(Object.entries(cabinet.nominalVoltage_V)).toEqual([
      ["panel", 240],
      ["toString", 240],
      ["__proto__", 240],
    ]);
  });

  it("is said of values that no JSON has, and of loops in memory", () => {
    const loop: Json = file(supply());
    loop.parts = [supply(), loop];
    expect(issuesOf(loop).length).toBeGreaterThan(0);
    for (const odd of [undefined, () => 1, Symbol("x"), 10n, Number.NaN]) {
      expect(issuesOf(odd)[0]!.path).toBe("");
      expect(issuesOf(file(supply(), load({ power: odd })))[0]!.path).toMatch(/^parts\[1\]/);
    }
  });

  it("leaves the value as it was", () => {
    const value = file(supply(), load());
    const before = JSON.stringify(value);
    readCabinet(value);
    expect(JSON.stringify(value)).toBe(before);
  });
});
