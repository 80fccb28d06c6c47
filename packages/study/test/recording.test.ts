import { plantOf } from "@startgap/circuit";
import { run } from "@startgap/ode";
import { describe, expect, it } from "vitest";
import { type Recording, recordingOf } from "../src/recording.ts";
import { scriptFor, staggerOf } from "../src/stagger.ts";
import { pair } from "./build.ts";

const plant = plantOf(pair());
const script = scriptFor(staggerOf(pair()), 2);

function told(): Recording {
  const recording = recordingOf(plant);
  run(plant, plant.start(script), 5, { recorder: recording });
  return recording;
}

const rowsOf = (recording: Recording): number[][] =>
  Array.from({ length: recording.rows }, (_, row) =>
    Array.from({ length: recording.channels.width }, (_, channel) => recording.at(row, channel)),
  );

describe("a recording", () => {
  const recording = told();
  const times = rowsOf(recording).map(([t]) => t);

  it("never goes back in time and ends where the story does", () => {
    expect(times[0]).toBe(0);
    expect(times.at(-1)).toBe(5);
    expect(times.every((t, i) => i === 0 || t >= times[i - 1])).toBe(true);
  });

  it("holds both sides of the jump as the relay closes", () => {
    const part = plant.layout.circuit.parts.findIndex((p) => p.name === "pump 2");
    const at = times.flatMap((t, row) => (t === 2 ? [row] : []));
    const live = at.map((row) => recording.at(row, recording.channels.live + part));
    expect(live[0]).toBe(0);
    expect(live.at(-1)).toBe(1);
  });

  it("tells the voltages, currents and coil of the network at each row's own state", () => {
    const { channels } = recording;
    for (const row of [0, Math.floor(recording.rows / 2), recording.rows - 1]) {
      const y = plant.stateNames.map((_, i) => recording.at(row, channels.state + i));
      const walk = plant.solve(y, recording.modeAt(row));
      plant.layout.circuit.parts.forEach((_, i) => {
        const node = plant.layout.told[i];
        expect(recording.at(row, channels.voltage + i)).toBe(
          Math.sqrt(walk.vr[node] ** 2 + walk.vi[node] ** 2),
        );
        expect(recording.at(row, channels.current + i)).toBe(Math.sqrt(walk.ir[i] ** 2 + walk.ii[i] ** 2));
      });
    }
    expect(channels.coil.filter((channel) => channel >= 0)).toHaveLength(1);
  });

  it("grows beyond its first room without losing a row", () => {
    const long = recordingOf(plant);
    const standing = plant.start(script);
    const count = 3000;
    for (let k = 0; k < count; k++) long.sample(k, standing.y, standing.mode);
    expect(long.rows).toBe(count);
    expect(long.rows * long.channels.width).toBeGreaterThan(16 * 1024);
    expect(Array.from({ length: count }, (_, k) => long.at(k, 0))).toEqual(
      Array.from({ length: count }, (_, k) => k),
    );
  });
});

describe("a branch of a recording", () => {
  it("keeps exactly the rows before its moment, and their modes", () => {
    const recording = told();
    const until = 0.4;
    const branch = recording.branch(until);
    const kept = rowsOf(recording).filter(([t]) => t < until);
    expect(kept.length).toBeGreaterThan(10);
    expect(rowsOf(branch)).toEqual(kept);
    for (let row = 0; row < branch.rows; row++) expect(branch.modeAt(row)).toBe(recording.modeAt(row));
  });

  it("leaves out the moment itself, also where a row stands exactly there", () => {
    const recording = told();
    const branch = recording.branch(2);
    expect(branch.at(branch.rows - 1, 0)).toBeLessThan(2);
    expect(rowsOf(branch)).toEqual(rowsOf(recording).filter(([t]) => t < 2));
  });

  it("goes on with its own rows and modes, and leaves the trunk alone", () => {
    const recording = told();
    const before = rowsOf(recording);
    const branch = recording.branch(1);
    const { y, mode } = plant.start(script);
    const rows = branch.rows;
    branch.sample(1, y, mode);
    expect(branch.rows).toBe(rows + 1);
    expect(branch.modeAt(rows)).toBe(mode);
    expect(rowsOf(recording)).toEqual(before);
  });

  it("reuses the numbers of one that is no longer read, when these are enough", () => {
    const recording = told();
    const used = recording.branch(1).buffer;
    const again = recording.branch(0.5, used);
    expect(again.buffer).toBe(used);
    expect(rowsOf(again)).toEqual(rowsOf(recording).filter(([t]) => t < 0.5));
    const small = recording.branch(3, new Float64Array(8));
    expect(rowsOf(small)).toEqual(rowsOf(recording).filter(([t]) => t < 3));
  });
});
