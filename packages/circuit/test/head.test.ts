import { run } from "@startgap/ode";
import { describe, expect, it } from "vitest";
import { asStated, type Compressor, type MotorMode, plantOf, type Script } from "../src/index.ts";
import { contactor, motor, supply } from "./build.ts";
import { CFM_m3ps, compressor, PSI_Pa, pressureSwitch, receiver, withControls } from "./buildControls.ts";

/** Light when empty; against full head the shaft asks more at rest than the machine's 4 N m. */
const heavy: Partial<Compressor> = { loaded: { atRest_Nm: 5, atFullSpeed_Nm: 1, shape: "linear" } };

const drives = { atRest_Nm: 0.5, atFullSpeed_Nm: 0.5, shape: "linear" } as const;

const delivers = { receiver: "tank", flow_m3ps: 10 * CFM_m3ps, atSpeed_radps: 60 * Math.PI };

/** A compressor worked by its own pressure switch, from 95 to 125 psi. */
const worked = (more: Partial<Compressor>) =>
  plantOf(
    withControls(
      [
        supply(110),
        { ...contactor("c", "supply", null), closedBy: "own" },
        motor("m", "c", { drives, compressor: compressor({ ...heavy, delivers, ...more }) }),
      ],
      receiver("tank", { pressure_Pa: 90 * PSI_Pa, demand: [{ from_s: 0, flow_m3ps: 2 * CFM_m3ps }] }),
      pressureSwitch("own", 95, 125),
    ),
  );

const story = (more: Partial<Compressor>, tEnd: number, script: Partial<Script> = {}) => {
  const plant = worked(more);
  const { events, end } = run(plant, plant.start({ ...asStated, ...script }), tEnd);
  const of = (what: string): number[] => events.filter(({ name }) => name === what).map(({ t }) => t);
  return { plant, end, of, mode: end.mode[2] as MotorMode, speed: end.y[0] };
};

const outage = (from_s: number, length_s: number) => [
  { at_s: from_s, factor: 0 },
  { at_s: from_s + length_s, factor: 1 },
];

describe("a compressor's head", () => {
  it("fills a while after it turns, and asks more from then on", () => {
    const { of, mode } = story({}, 10);
    expect(of("m: head begins to fill")).toEqual([0]);
    expect(of("m: head is full")).toEqual([2]);
    expect(mode.head?.state).toBe("loaded");
  });

  it("vents when its own pressure switch opens, so that it starts again at the next call", () => {
    const { of, speed } = story({ unloader: { switch: "own" } }, 3600);
    const stops = of("own: cuts out");
    expect(stops.length).toBeGreaterThan(3);
    expect(of("m: unloader opens")).toEqual(stops);
    expect(of("m: breaks away").length).toBe(of("own: cuts in").length + 1);
    expect(speed).toBeGreaterThanOrEqual(0);
  });

  it("stands full after an outage that its own pressure switch knows nothing of, and the motor hums", () => {
    const script = { supply: outage(20, 5) };
    const { of, mode, speed } = story({ unloader: { switch: "own" } }, 60, script);
    expect(of("m: comes to rest").length).toBe(1);
    expect(of("m: breaks away").length).toBe(1);
    expect(mode.turning).toBe(false);
    expect(speed).toBe(0);
  });

  it("is empty after the same outage with flyweights, or once it has leaked down", () => {
    const flyweights = story({ unloader: "centrifugal" }, 60, { supply: outage(20, 5) });
    expect(flyweights.mode.turning).toBe(true);
    const leaky = story({ leaks_s: 3 }, 60, { supply: outage(20, 5) });
    const rests = leaky.of("m: comes to rest")[0];
    expect(leaky.of("m: head has leaked down")[0]).toBeCloseTo(rests + 3, 9);
    expect(leaky.of("m: breaks away").length).toBe(2);
  });

  it("stops filling when the motor stops first", () => {
    const { of, mode } = story({ fills_s: 9 }, 20, { supply: [{ at_s: 1, factor: 0 }] });
    expect(of("m: head stops filling").length).toBe(1);
    expect(mode.head?.state).toBe("vented");
  });

  it("is what a story says it is, and nothing at all where no air goes anywhere", () => {
    const full = story({}, 5, { head: () => "loaded" });
    expect(full.mode.turning).toBe(false);
    const dry = story({ delivers: null }, 5);
    expect(dry.mode.head).toBeUndefined();
    expect(dry.mode.turning).toBe(true);
  });
});
