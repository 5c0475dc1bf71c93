import type { Rng } from "../../statistics/index.ts";
import type { Rows } from "../log-chunk.ts";
import { story } from "./story.ts";

// The model of the demonstration, stated so that what is found from its readings can be held against it: the load an
// anchor gives way at is lognormal about the median of its seabed, times a factor of the day; the engine gives so much
// and no more. Loads rise in steps; on giving way the load drops to about a third and the boat gathers way.

export interface SimulatedPull {
  readonly steps: { load_N: number; duration_s: number }[];
  readonly result: { kind: "gaveWay" | "heldTo" | "neverSet"; load_N: number; u_N: number };
  readonly endedBy: "engine limit" | "drag" | "roll-out" | "break-out";
  readonly moved_m: number;
}

/** One pull: what was held and what ended it. */
export function simulatePull(stream: Rng, median_N: number, spread: number, dayFactor: number): SimulatedPull {
  const { engine, step } = story;
  const holds = median_N * dayFactor * Math.exp(spread * stream.normal());
  const thrust = engine.thrust_N + engine.u_N * stream.normal();
  const most = Math.min(holds, thrust);
  const steps: { load_N: number; duration_s: number }[] = [];
  for (let load = step.load_N; load < most; load += step.load_N) steps.push({ load_N: load, duration_s: step.seconds });
  if (holds < step.load_N) {
    const load_N = round(holds);
    return {
      steps: [{ load_N, duration_s: 10 }],
      result: { kind: "neverSet", load_N, u_N: 20 },
      endedBy: "drag",
      moved_m: 12,
    };
  }
  const load_N = round(most);
  if (holds >= thrust) {
    steps.push({ load_N, duration_s: 60 });
    return {
      steps,
      result: { kind: "heldTo", load_N, u_N: 20 },
      endedBy: "engine limit",
      moved_m: round(0.3 + stream.exponential(), 10),
    };
  }
  const lot = stream.uniform();
  const endedBy = lot < 0.75 ? "drag" : lot < 0.9 ? "roll-out" : "break-out";
  steps.push({ load_N, duration_s: 5 });
  return {
    steps,
    result: { kind: "gaveWay", load_N, u_N: 30 },
    endedBy,
    moved_m: round(1 + 2 * stream.exponential(), 10),
  };
}

/** The load cell at the bow and the position over one pull, ten readings a second; depth and wind once a second. */
export function simulateLog(
  stream: Rng,
  pull: SimulatedPull,
  start_s: number,
  at: { latitude_deg: number; longitude_deg: number; depth_m: number; wind_m_per_s: number },
): Rows {
  const { cell } = story;
  const seconds = 20 + pull.steps.reduce((sum, s) => sum + s.duration_s + 4, 0) + 20;
  const count = Math.round(seconds * cell.everySecond);
  const times = new Float64Array(count);
  const load = new Float64Array(count);
  const depth = new Float64Array(count).fill(Number.NaN);
  const wind = new Float64Array(count).fill(Number.NaN);
  const latitude = new Float64Array(count).fill(Number.NaN);
  const longitude = new Float64Array(count).fill(Number.NaN);
  const gaveWay = pull.result.kind !== "heldTo";
  const ends = seconds - 20;
  let sway = 0;
  for (let i = 0; i < count; i++) {
    const t = i / cell.everySecond;
    times[i] = Math.round((start_s + t) * 1000) / 1000;
    // The boat surges a little on its rode: a slow wander about the step's load.
    sway = 0.995 * sway + 0.1 * stream.normal();
    const dragging = gaveWay && t > ends;
    const held = loadAt(pull, t, ends) * (dragging ? 0.35 : 1);
    load[i] = Math.max(0, held * (1 + 0.012 * sway)) + cell.zero_N + cell.noise_N * stream.normal();
    if (i % cell.everySecond !== 0) continue;
    depth[i] = round(at.depth_m + 0.05 * stream.normal(), 100);
    wind[i] = round(Math.max(0, at.wind_m_per_s + 0.8 * stream.normal()), 10);
    // Astern to the west; one degree of longitude at the equator is about 111 km.
    const astern_m = 0.002 * held + (dragging ? 0.5 * (t - ends) : 0);
    latitude[i] = round(at.latitude_deg + 6e-6 * stream.normal(), 1e7);
    longitude[i] = round(at.longitude_deg - astern_m / 111_320 + 6e-6 * stream.normal(), 1e7);
  }
  return { times, columns: { load, depth, wind, latitude, longitude } };
}

function loadAt(pull: SimulatedPull, t: number, ends: number): number {
  let begun = 20;
  let before = 0;
  for (const { load_N, duration_s } of pull.steps) {
    if (t < begun) return before;
    // Four seconds to take up each step.
    if (t < begun + 4) return before + ((load_N - before) * (t - begun)) / 4;
    begun += duration_s + 4;
    before = load_N;
  }
  return t <= ends || pull.result.kind !== "heldTo" ? before : before * Math.max(0, 1 - (t - ends) / 8);
}

export function round(value: number, per = 1): number {
  return Math.round(value * per) / per;
}
