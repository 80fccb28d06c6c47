import { magnitude } from "@startgap/circuit";
import type { VoltShare, WorstMoment } from "../results.ts";
import type { Telling } from "../telling.ts";

/**
 * The moment a receptacle (or, without one, a motor) fell furthest below its no-load voltage, and which
 * parts on the way from the supply took the missing volts.
 *
 * Each part's share is its drop in per unit of no-load voltage, times the point's own no-load voltage; the
 * shares sum to what is missing. A part may have a negative share: a leg can rise.
 */
export function worstMoment(told: Telling): WorstMoment | null {
  const { recording, plant } = told;
  const { circuit, nominal_V, told: nodes } = plant.layout;
  const kind = circuit.parts.some((p) => p.is === "load") ? "load" : "motor";
  let worst = { part: -1, row: -1, level: Number.POSITIVE_INFINITY };
  circuit.parts.forEach((p, part) => {
    if (p.is !== kind) return;
    for (let row = 0; row < recording.rows; row++) {
      if (recording.at(row, recording.channels.live + part) === 0) continue;
      const level = recording.at(row, recording.channels.voltage + part) / nominal_V[nodes[part]];
      if (level < worst.level) worst = { part, row, level };
    }
  });
  if (worst.part < 0) return null;
  const nominal = nominal_V[nodes[worst.part]];
  return {
    point: circuit.parts[worst.part].name,
    at_s: recording.at(worst.row, 0),
    nominal_V: nominal,
    voltage_V: worst.level * nominal,
    shares: sharesAt(told, worst.part, worst.row),
  };
}

function sharesAt(told: Telling, point: number, row: number): VoltShare[] {
  const { recording, plant } = told;
  const { circuit, feeders, nominal_V, places, told: nodes } = plant.layout;
  const y = Array.from({ length: plant.layout.states }, (_, i) =>
    recording.at(row, recording.channels.state + i),
  );
  const walk = plant.solve(y, recording.modeAt(row));
  const level = (node: number): number => magnitude(walk, node) / nominal_V[node];
  const shares: VoltShare[] = [];
  let node = nodes[point];
  for (let part = feeders[point]; part >= 0; part = feeders[part]) {
    const { at } = places[part];
    const before = at < 0 ? 1 : level(at);
    shares.unshift({
      part: circuit.parts[part].name,
      lost_V: (before - level(node)) * nominal_V[nodes[point]],
    });
    node = at;
  }
  return shares;
}
