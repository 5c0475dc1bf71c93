import { reduceTrace } from "../../../src/pull/trace/reduce-trace.ts";
import { type Scene, type SimulatedPull, simulatePull } from "./simulated-pull.ts";

/** What was there, what of it was found, and what was found that was not there. */
export interface Tally {
  there: number;
  found: number;
  falseAlarms: number;
}

export interface Recall {
  readonly pulls: number;
  readonly minutes: number;
  readonly plateau: Tally;
  readonly drag: Tally;
  readonly peak: Tally;
  readonly spike: Tally;
  readonly reversal: Tally;
  /** (found − true mean) / u of each plateau found. */
  readonly meanErrors: number[];
  /** (found − true drift) / u of each zero. */
  readonly driftErrors: number[];
  /** Error of each end of each plateau found, s. */
  readonly endErrors: number[];
  readonly zeroFound: Tally;
}

/** A gust this much taller than what the settings ask for is expected to be found; a lower one may be. */
const TALL = 1.3;

/** Reduces simulated pulls of many seeds and compares with what is true of each. */
export function recallOf(seeds: readonly number[], scene: Omit<Scene, "seed">): Recall {
  const tally = (): Tally => ({ there: 0, found: 0, falseAlarms: 0 });
  const out = {
    pulls: seeds.length,
    minutes: 0,
    plateau: tally(),
    drag: tally(),
    peak: tally(),
    spike: tally(),
    reversal: tally(),
    zeroFound: tally(),
    meanErrors: [] as number[],
    driftErrors: [] as number[],
    endErrors: [] as number[],
  };
  for (const seed of seeds) {
    const pull = simulatePull({ ...scene, seed });
    out.minutes += pull.trace.time.at(-1)! / 60;
    compare(pull);
  }
  return out;

  function compare({ trace, truth }: SimulatedPull): void {
    const r = reduceTrace(trace, { readAt: "bow" });
    pair(out.plateau, truth.plateaus, r.plateaus, overlaps, (t, p) => {
      out.meanErrors.push((p.load.value - t.mean) / p.load.u);
      out.endErrors.push(p.from - t.from, p.to - t.to);
    });
    pair(out.drag, truth.drags, r.drags, (t, d) => d.from < t.to + 2 && d.to > t.from - 2);
    const top = Math.max(...r.plateaus.map((p) => p.load.value));
    const tall = truth.gusts.filter((g) => g.height > TALL * r.settings.peak.prominence * top);
    pair(out.peak, tall, r.peaks, (g, p) => Math.abs(g.at - p.at) < 1.5);
    // Surge makes peaks too: they are no false alarms, so only a peak nothing explains would be one.
    out.peak.falseAlarms = 0;
    const lone = r.marks.filter((m) => m.kind === "spike");
    pair(out.spike, truth.spikes, lone, (s, m) => Math.abs(s.at - m.from) < 0.15);
    pair(out.reversal, truth.reversal ? [truth.reversal] : [], r.reversals, (t, v) => v.from < t.to && v.to > t.from);
    out.zeroFound.there++;
    if (r.zero.kind === "drifting") {
      out.zeroFound.found++;
      out.driftErrors.push((r.zero.rate.value - truth.zero.rate) / r.zero.rate.u);
    }
  }
}

function pair<T, F>(
  tally: Tally,
  there: readonly T[],
  found: readonly F[],
  same: (t: T, f: F) => boolean,
  each?: (t: T, f: F) => void,
): void {
  const left = new Set(found);
  for (const t of there) {
    tally.there++;
    const f = [...left].find((one) => same(t, one));
    if (f === undefined) continue;
    left.delete(f);
    tally.found++;
    each?.(t, f);
  }
  tally.falseAlarms += left.size;
}

/** Two plateaus are the same when they share seven tenths of the time that both cover. */
function overlaps(a: { from: number; to: number }, b: { from: number; to: number }): boolean {
  const common = Math.min(a.to, b.to) - Math.max(a.from, b.from);
  return common >= 0.7 * (Math.max(a.to, b.to) - Math.min(a.from, b.from));
}

export function share(tally: Tally): number {
  return tally.found / tally.there;
}

/** Share of the values within ± limit. */
export function within(values: readonly number[], limit: number): number {
  return values.filter((v) => Math.abs(v) <= limit).length / values.length;
}

export function seedsFrom(first: number, count: number): number[] {
  return Array.from({ length: count }, (_, i) => first + i);
}
