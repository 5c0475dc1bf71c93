import { type Drag, type Easing, findDrags } from "./drags.ts";
import { findDrops } from "./drops.ts";
import { evenly } from "./even.ts";
import { type HeldLoad, heldLoad, type ReadAt } from "./held.ts";
import { loadedOf } from "./loaded.ts";
import { type LowPass, lowPass, lowPassOf, peakKept } from "./low-pass.ts";
import { applyCorrections, type CorrectedMarks, type Correction, type Mark } from "./marks.ts";
import { alongPulls } from "./movement.ts";
import { type Above, findPeaks, type Peak, timeAbove } from "./peaks.ts";
import { findPlateaus, markId, measurePlateau, type Plateau } from "./plateaus.ts";
import { type CycleClass, classes, rainflow } from "./rainflow.ts";
import { findReversals, type Reversal, type SetDistance, setDistance } from "./set-and-reset.ts";
import { type SettingsChange, settingsWith, type TraceSettings } from "./settings.ts";
import { spikes } from "./spikes.ts";
import { type MatchedStep, matchSteps, type PlannedStep } from "./steps.ts";
import { readings, type Span, type Trace } from "./trace.ts";
import { findZero, type Zero, zeroAt } from "./zero.ts";

export interface TraceQuestion {
  readonly readAt: ReadAt;
  readonly settings?: SettingsChange;
  /** Slack stretches that a person pointed at, s. */
  readonly slack?: readonly Span[];
  /** Stretches whose readings are believed though they stand alone, s. */
  readonly believed?: readonly Span[];
  /** The protocol. */
  readonly steps?: readonly PlannedStep[];
  /** How far the rode lets the boat go back at a load, m: from `ladder`. */
  readonly give?: (newtons: number) => number;
  /** What people changed on the automatic marks; the held load is that of the marks as corrected. */
  readonly corrections?: readonly Correction[];
}

export interface TraceReduction {
  readonly readAt: ReadAt;
  readonly settings: TraceSettings;
  /** The log itself. */
  readonly log: {
    readonly from: number;
    readonly to: number;
    readonly readings: number;
    /** Rows without a usable reading. */
    readonly dropped: number;
    /** Usual time between readings, s. */
    readonly interval: number;
    readonly gaps: readonly Span[];
    /** Standard deviation of one reading about its neighbours, N. */
    readonly noise: number;
  };
  readonly zero: Zero;
  readonly filter: LowPass & {
    /** Share of its height that a steady peak of each length keeps. */
    readonly keeps: readonly { readonly seconds: number; readonly share: number }[];
    readonly grain: number;
  };
  readonly plateaus: readonly Plateau[];
  readonly peaks: readonly Peak[];
  /** All peaks of that prominence; `peaks` lists the highest. */
  readonly peakCount: number;
  readonly above: readonly Above[];
  readonly cycles: { readonly deadBand: number; readonly total: number; readonly classes: readonly CycleClass[] };
  readonly drags: readonly Drag[];
  readonly easings: readonly Easing[];
  readonly set: SetDistance;
  readonly reversals: readonly Reversal[];
  readonly protocol: { readonly steps: readonly MatchedStep[]; readonly unplanned: readonly string[] } | null;
  /** Automatic marks, as found. */
  readonly marks: readonly Mark[];
  /** The marks as they stand after corrections. */
  readonly standing: CorrectedMarks;
  readonly held: HeldLoad;
  /** The load with its zero taken off, and filtered, one value for each usable reading: for drawing. */
  readonly series: { readonly time: Float64Array; readonly load: Float64Array; readonly filtered: Float64Array };
}

/** Shares of the highest load at which crossings and time above are told. */
const LEVELS = [0.9, 0.75, 0.5, 0.25];
/** Lengths of a peak for which the filter tells what it keeps, s. */
const PEAK_LENGTHS = [0.1, 0.2, 0.5, 1, 2];
/** Times the noise of one reading that a change must have to count as one. */
const CLEAR = 6;

/**
 * Reduces the log of one pull: zero and drift, plateaus, peaks, drags, set distance, reversals, steps, cycles and the
 * held load, with the marks they leave on the trace.
 *
 * All is decided on means over grains of time, so that neither the unit of load nor the rate of the log changes the
 * answer; peaks alone are those of the readings themselves. O(n log n) at most.
 *
 * @throws InputError naming the channel and row when times run backward or a channel is empty
 */
export function reduceTrace(trace: Trace, question: TraceQuestion): TraceReduction {
  const settings = settingsWith(question.settings);
  const log = readings(trace.time, trace.load, settings.longestGap, "load");
  const from = log.time[0]!;
  const to = log.time.at(-1)!;
  const lone = spikes(log, settings.spike.longest, settings.spike.clear);
  const tips = lone.tips.filter((i) => !believed(log.time[i]!));
  for (let i = 0; i < log.time.length; i++) if (lone.leftOut[i] === 1 && believed(log.time[i]!)) lone.leftOut[i] = 0;

  // A very long or very slow log gets coarser grains: two readings each, and at most some hundred thousand.
  const grain = Math.max(settings.grain, 2 * log.interval, (to - from) / 200_000);
  const raw = evenly(log, grain, from, to, lone.leftOut);
  const zero = findZero(raw, settings, question.slack);
  const even = { ...raw, value: raw.value.map((v, k) => v - zeroAt(zero, from + (k + 0.5) * grain).value) };
  const loaded = loadedOf(even, settings);

  const load = log.value.map((v, i) => v - zeroAt(zero, log.time[i]!).value);
  const spikeMarks = tips.map((i) => spikeMark(i, log.time[i]!, load[i]!));
  const bridged = bridge(log.time, load, lone.leftOut);
  const filter = lowPassOf(settings.bandwidth, log.interval);
  const filtered = lowPass({ ...log, value: load }, filter, lone.leftOut);

  const drops = findDrops(loaded, settings);
  const along = trace.track ? alongPulls(trace.track, trace.heading, loaded, settings) : loaded.pulls.map(() => null);
  const { drags, easings } = findDrags(drops, along, loaded, settings, question.give);
  const plateaus = findPlateaus(loaded, zero, settings, drops);
  const reversals = findReversals(loaded, along, trace.heading, plateaus, drags);

  const hush = CLEAR * lone.noise;
  const deadBand = Math.max(hush, settings.peak.prominence * 0.5 * loaded.top);
  const { peaks, count } = findPeaks(log, bridged, filtered, {
    prominence: Math.max(hush, settings.peak.prominence * loaded.top),
    most: settings.peak.most,
    shares: settings.peak.shares,
    hush: hush / 2,
    uOf: (i) =>
      Math.hypot(
        lone.noise,
        zeroAt(zero, log.time[i]!).u,
        settings.cell.relative * load[i]!,
        settings.cell.step / Math.sqrt(12),
      ),
  });
  const cycles = rainflow(bridged, deadBand);

  const slack = loaded.slack.map(
    (s): Mark => ({
      id: markId("slack", s.from),
      kind: "slack",
      ...s,
      ...measured(s),
      of: "force",
      why: "the load is all but gone",
    }),
  );
  const marks: Mark[] = [
    ...slack,
    ...plateaus.map(
      (p): Mark => ({
        id: p.id,
        kind: "plateau",
        from: p.from,
        to: p.to,
        value: p.load.value,
        u: p.load.u,
        of: "force",
        why: whyFlat(p),
      }),
    ),
    ...peaks.map(
      (p): Mark => ({
        id: p.id,
        kind: "peak",
        from: p.at,
        to: p.at,
        value: p.load.value,
        u: p.load.u,
        of: "force",
        why: "rises and falls clear of both sides",
      }),
    ),
    ...spikeMarks,
    ...drags.map(
      (d): Mark => ({
        id: d.id,
        kind: "drag",
        from: d.from,
        to: d.to,
        value: d.load.value,
        u: d.load.u,
        of: "force",
        why: d.why,
      }),
    ),
    ...easings.map(
      (e): Mark => ({
        id: e.id,
        kind: "easing",
        from: e.from,
        to: e.to,
        value: e.load.value,
        u: e.load.u,
        of: "force",
        why: e.why,
      }),
    ),
    ...reversals.map(
      (r): Mark => ({
        id: r.id,
        kind: "reversal",
        from: r.from,
        to: r.to,
        value: r.turn ?? 0,
        u: 0,
        of: "angle",
        why: r.why,
      }),
    ),
  ].sort((a, b) => a.from - b.from || a.to - b.to);
  const standing = applyCorrections(marks, question.corrections ?? [], (m) =>
    m.kind === "plateau" || m.kind === "slack" ? measured(m) : null,
  );

  return {
    readAt: question.readAt,
    settings,
    log: {
      from,
      to,
      readings: log.time.length,
      dropped: log.dropped,
      interval: log.interval,
      gaps: log.gaps,
      noise: lone.noise,
    },
    zero,
    filter: { ...filter, keeps: PEAK_LENGTHS.map((seconds) => ({ seconds, share: peakKept(filter, seconds) })), grain },
    plateaus,
    peaks,
    peakCount: count,
    above: timeAbove(
      log,
      bridged,
      LEVELS.map((share) => share * loaded.top),
      hush / 2,
    ),
    cycles: { deadBand, total: cycles.reduce((sum, c) => sum + c.count, 0), classes: classes(cycles, 10) },
    drags,
    easings,
    set: setDistance(loaded, along, plateaus, trace.track !== undefined, question.give),
    reversals,
    protocol: question.steps ? matchSteps(question.steps, plateaus) : null,
    marks,
    standing,
    held: heldLoad(standing.marks, question.readAt, settings.heldFor),
    series: { time: log.time, load, filtered },
  };

  function believed(t: number): boolean {
    return (question.believed ?? []).some((s) => t >= s.from && t <= s.to);
  }

  function measured(span: Span): { value: number; u: number } {
    return measurePlateau(loaded, zero, settings, span).load;
  }

  function spikeMark(i: number, t: number, value: number): Mark {
    const times = Math.abs(value - bridgedAt(i)) / lone.noise;
    return {
      id: markId("spike", t),
      kind: "spike",
      from: t,
      to: t,
      value,
      u: lone.noise,
      of: "force",
      why: `stands alone, ${Math.round(times)} times the noise from its neighbours`,
    };
  }

  function bridgedAt(i: number): number {
    let a = i;
    while (a > 0 && lone.leftOut[a] === 1) a--;
    let b = i;
    while (b < load.length - 1 && lone.leftOut[b] === 1) b++;
    return (load[a]! + load[b]!) / 2;
  }
}

function whyFlat(p: Plateau): string {
  const perMinute = (60 * p.creep.value) / p.load.value;
  return `flat for ${(p.to - p.from).toFixed(1)} s, changing by ${(100 * perMinute).toPrecision(2)} % a minute`;
}

/** The load with spikes bridged by straight lines. */
function bridge(time: Float64Array, load: Float64Array, leftOut: Uint8Array): Float64Array {
  const out = load.slice();
  for (let i = 0; i < out.length; i++) {
    if (leftOut[i] !== 1) continue;
    let b = i;
    while (b < out.length && leftOut[b] === 1) b++;
    const a = i - 1;
    for (let k = i; k < b; k++) {
      if (a < 0) out[k] = out[Math.min(b, out.length - 1)]!;
      else if (b >= out.length) out[k] = out[a]!;
      else out[k] = out[a]! + ((out[b]! - out[a]!) * (time[k]! - time[a]!)) / (time[b]! - time[a]!);
    }
    i = b;
  }
  return out;
}
