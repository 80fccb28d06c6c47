import { examples, parseCabinet } from "@startgap/cabinet";
import { describe, expect, it } from "vitest";
import { perform } from "./stage.ts";

const commands = "check stagger plot report motor fuse improve vary protect failures wave new demo".split(
  " ",
);
const [shed] = examples;
const files = { "a.json": shed.text };

describe("help", () => {
  it("lists the commands with examples and the exit statuses, on standard output", async () => {
    const { status, out, err } = await perform(["--help"]);
    expect([status, err]).toEqual([0, ""]);
    for (const name of commands) expect(out).toContain(`\n  ${name} `);
    expect(out).toContain("Examples:");
    expect(out.replace(/\s+/g, " ")).toContain("2 bad input, nothing written");
  });

  for (const name of commands) {
    it(`of ${name} has an example of it`, async () => {
      const { status, out } = await perform([name, "--help"]);
      expect(status).toBe(0);
      expect(out).toMatch(new RegExp(`Examples:\n {2}startgap ${name}`));
    });
  }

  it("keeps to the width of the screen", async () => {
    const { out } = await perform(["check", "--help"], { width: 80 });
    for (const line of out.split("\n")) expect(line.length).toBeLessThanOrEqual(80);
  });

  it("comes on the error stream, as a wrong use, when nothing was asked", async () => {
    const { status, out, err } = await perform([]);
    expect([status, out]).toEqual([2, ""]);
    expect(err).toContain("Usage: startgap");
  });
});

describe("wrong arguments", () => {
  it("name the nearest command and all of them", async () => {
    const { status, out, err } = await perform(["chek", "a.json"]);
    expect([status, out]).toEqual([2, ""]);
    expect(err).toContain("unknown command 'chek'; did you mean check?");
    expect(err).toContain("Accepted commands: check, stagger");
  });

  it("name the nearest option and all of them", async () => {
    const { status, err } = await perform(["check", "a.json", "--dely", "6 s"]);
    expect(status).toBe(2);
    expect(err).toContain("unknown option '--dely'; did you mean --delay?");
    expect(err.replace(/\s+/g, " ")).toContain("options: --delay, --duration, --tolerance");
  });

  it("say what is missing and what is too much", async () => {
    expect(await perform(["check"])).toMatchObject({
      status: 2,
      out: "",
      err: /missing required argument 'FILE'/,
    });
    expect(await perform(["plot", "a"])).toMatchObject({ status: 2, err: /required option '-o, --output/ });
    expect(await perform(["check", "a", "--delay"])).toMatchObject({ status: 2, err: /argument missing/ });
    expect(await perform(["check", "a", "b"])).toMatchObject({ status: 2, err: /too many arguments/ });
  });

  it("are told together with what is wrong in the file and with where it cannot be written", async () => {
    const argv = ["check", "a.json", "--delay", "6", "--tolerance", "none", "--traces", "nowhere/t.csv"];
    const { status, out, err, written } = await perform(argv, { files: { "a.json": '{ "startgap": 1 }' } });
    expect({ status, out, written }).toEqual({ status: 2, out: "", written: {} });
    const places = err.split("\n").map((line) => line.trim().split(":")[0]);
    expect(places).toEqual(["startgap", "--delay", "--tolerance", "--traces", "parts", "title", ""]);
    expect(err).toContain('--delay: expected a time from 0 s to 1 h, as "6 s"; received "6"');
  });

  it("may not make the command write over its own input, or twice to one file", async () => {
    const over = await perform(["plot", "a.json", "-o", "./a.json"], { files });
    expect(over).toMatchObject({ status: 2, out: "", written: {}, err: /the cabinet file itself/ });
    const dash = await perform(["check", "a.json", "--traces", "-"], { files });
    expect(dash).toMatchObject({ status: 2, out: "", written: {}, err: /--traces: expected a file/ });
  });

  it("may not put a picture under a name that promises another kind of file", async () => {
    for (const name of ["start.png", "start.PDF", "start.html"]) {
      const { status, err } = await perform(["plot", "a.json", "-o", name], { files });
      expect(status).toBe(2);
      expect(err).toContain(`--output: expected a name that ends in .svg; received "${name}"`);
    }
    const page = await perform(["report", "a.json", "-o", "a.svg", "--pdf", "a.html"], { files });
    expect(page.err).toContain('--output: expected a name that ends in .html; received "a.svg"');
    expect(page.err).toContain('--pdf: expected a name that ends in .pdf; received "a.html"');
  });

  it("name a file that is not there", async () => {
    const { status, out, err } = await perform(["check", "absent.json", "--json"]);
    expect([status, out]).toEqual([2, ""]);
    expect(err).toContain('expected a cabinet file that can be read; received "absent.json", no such file');
  });

  it("name the parts there are and the nearest, for a name that is none", async () => {
    const { status, err } = await perform(["motor", "a.json", "Compressor2"], {
      files: { "a.json": shed.text },
    });
    expect(status).toBe(2);
    expect(err).toContain("expected a motor of this cabinet: compressor 1, compressor 2");
    expect(err).toContain('did you mean "compressor 2"?');
  });

  it("name the nearest part for a slip of the pen", async () => {
    const { err } = await perform(["motor", "a.json", "compresor 2"], { files });
    expect(err).toContain(`did you mean "compressor 2"?`);
  });

  it("name the figures there are", async () => {
    const argv = ["plot", "a.json", "-o", "a.svg", "--figure", "pie"];
    const { status, err, written } = await perform(argv, { files: { "a.json": shed.text } });
    expect([status, written]).toEqual([2, {}]);
    expect(err).toMatch(/--figure: expected one of overlay.*; received "pie"/);
  });
});

describe("new", () => {
  it("writes a file with notes that can be read at once", async () => {
    for (const { key } of examples) {
      const { status, written } = await perform(["new", "a.json", "--example", key]);
      expect(status).toBe(0);
      expect(JSON.parse(written["a.json"]).notes).toContain("fedBy");
      expect(parseCabinet(written["a.json"])).toHaveProperty("cabinet");
    }
  });

  it("writes the schema beside it on request, and points to it", async () => {
    const { written } = await perform(["new", "sheds/a.json", "--schema"]);
    expect(Object.keys(written)).toEqual(["sheds/a.json", "sheds/cabinet.schema.json"]);
    expect(JSON.parse(written["sheds/a.json"]).$schema).toBe("cabinet.schema.json");
    expect(JSON.parse(written["sheds/cabinet.schema.json"]).$schema).toContain("json-schema.org");
    expect(parseCabinet(written["sheds/a.json"])).toHaveProperty("cabinet");
  });

  it("never writes over a file unless told to", async () => {
    const files = { "a.json": "mine" };
    expect(await perform(["new", "a.json"], { files })).toMatchObject({
      status: 2,
      out: "",
      written: {},
      err: /already there; --force replaces it/,
    });
    expect((await perform(["new", "a.json", "--force"], { files })).written["a.json"]).toContain("startgap");
  });

  it("lists the examples, writes to standard output, and refuses an unknown example", async () => {
    const list = await perform(["new", "--list"]);
    for (const { key, title } of examples)
      expect(list.out).toMatch(new RegExp(`${key} +${title.slice(0, 20)}`));
    expect(JSON.parse((await perform(["new", "-"])).out).title).toBe(shed.title);
    expect(await perform(["new", "a", "--example", "x"])).toMatchObject({
      status: 2,
      err: /one of ice-shed/,
    });
    expect(await perform(["new"])).toMatchObject({ status: 2, err: /FILE: expected the file to write/ });
  });
});
