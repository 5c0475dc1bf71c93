import { classes, rainflow } from "../../statistics/index.ts";
import type { AnchorPath } from "../anchor/index.ts";
import { automaticMarks } from "./automatic-marks.ts";
import { type Drag, findDrags } from "./drags.ts";
import { findDrops } from "./drops.ts";
import { firstMovement } from "./first-movement.ts";
import { heldLoad } from "./held.ts";
import type { Loaded } from "./loaded.ts";
import { loadedTrace } from "./loaded-trace.ts";
import { filteredAt, lowPassOf, peakKept } from "./low-pass.ts";
import { applyCorrections, type CorrectedMark } from "./marks.ts";
import { findPeaks, timeAbove } from "./peaks.ts";
import { findPlateaus, measurePlateau, type Plateau } from "./plateaus.ts";
import type { TraceQuestion, TraceReduction } from "./reduction.ts";
import { findTurns, judgeReversal, setDistance } from "./set-and-reset.ts";
import { bridge } from "./spikes.ts";
import { matchSteps } from "./steps.ts";
import { sustainedLoads } from "./sustained.ts";
import { findSwung } from "./swung.ts";
import type { Measured, Span, Trace } from "./trace.ts";
import { pathByClock } from "./track-clock.ts";
import { wayAtLoads } from "./way.ts";
import { withoutZero, zeroAt } from "./zero.ts";

/** Shares of the highest load at which crossings and time above are told. */
const LEVELS = [0.9, 0.75, 0.5, 0.25];
/** For how long a load is sustained, s. */
const SUSTAINED = [1, 3, 5, 10, 30, 60];
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
  const { settings, log, lone, zero, even, loaded } = loadedTrace(trace, question);
  const { grain } = even;
  const from = log.time[0]!;
  const to = log.time.at(-1)!;
  const load = withoutZero(zero, log.time.length, (i) => log.time[i]!, log.value);
  const filter = lowPassOf(settings.bandwidth, log.interval);

  const drops = findDrops(loaded, settings);
  const straight = findPlateaus(loaded, zero, settings, drops);
  const flats = [...straight, ...findSwung(loaded, zero, settings, straight, drops)].sort((a, b) => a.from - b.from);
  const { path, clock, heading } = pathByClock(trace, loaded, settings, question);
  const found = findDrags(drops, path, flats, loaded, settings);
  const measure = (span: Span): Measured => measurePlateau(loaded, zero, settings, span).load;

  // A change no larger than the noise of a reading, or than half a peak, is no turn of the load.
  const hush = CLEAR * lone.noise;
  const deadBand = Math.max(hush, 0.5 * settings.peak.prominence * loaded.top);
  const uOf = (i: number): number =>
    Math.hypot(
      lone.noise,
      zeroAt(zero, log.time[i]!).u,
      settings.cell.relative * load[i]!,
      settings.cell.step / Math.sqrt(12),
    );
  const slowLog = log.interval > settings.spike.longest * 1.0001;
  const peaksFound = () =>
    findPeaks(log, load, {
      filteredAt: (i) => filteredAt({ ...log, value: load }, filter, lone.leftOut, i),
      prominence: Math.max(hush, settings.peak.prominence * loaded.top),
      most: settings.peak.most,
      shares: settings.peak.shares,
      hush: hush / 2,
      uOf,
      alone: (i) => lone.leftOut[i] === 1,
    });
  const ofSlow = slowLog ? peaksFound() : null;
  const putBack = bridge(log.time, load, lone.leftOut);
  const { peaks, count } = ofSlow ?? peaksFound();
  const cycles = rainflow(load, deadBand);
  const sustained = sustainedLoads(log, load, SUSTAINED, settings.longestGap, uOf);
  const above = timeAbove(log, load, levelsOf(loaded), hush / 2);
  const bridged = lone.tips.map((i) => load[i]!);
  putBack();

  const marks = automaticMarks({
    slack: loaded.slack.map((s) => ({ ...s, load: measure(s) })),
    plateaus: flats,
    peaks,
    spikes: lone.tips.flatMap((i, k) =>
      lone.leftOut[i] === 1
        ? [
            {
              at: log.time[i]!,
              load: { value: load[i]!, u: lone.noise },
              times: Math.abs(load[i]! - bridged[k]!) / lone.noise,
            },
          ]
        : [],
    ),
    drags: found.drags,
    easings: found.easings,
    turns: findTurns(loaded, path, heading),
    slowLog,
  });
  // What follows rests on the marks as they stand, so that a person's correction is carried through.
  const corrected = applyCorrections(marks, question.corrections ?? [], (m) =>
    m.kind === "plateau" || m.kind === "slack" ? measure(m) : null,
  );
  const plateaus = corrected.marks
    .filter((m) => m.kind === "plateau")
    .map(
      (m): Plateau => ({ ...measurePlateau(loaded, zero, settings, m), id: m.id, load: { value: m.value, u: m.u } }),
    );
  const set = setDistance(loaded, path, plateaus, trace.track !== undefined, question.give ? "rig" : "fitted");
  const drags = corrected.marks.filter((m) => m.kind === "drag").map((m) => dragOf(m, found.drags, path));

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
    sustained,
    above,
    cycles: { deadBand, total: cycles.reduce((sum, c) => sum + c.count, 0), classes: classes(cycles, 10) },
    path,
    clock,
    drags,
    easings: found.easings,
    first: firstMovement(path, drags, trace.track !== undefined),
    set,
    way: wayAtLoads(path, plateaus, set),
    reversals: corrected.marks
      .filter((m) => m.kind === "reversal")
      .map((m) => ({
        id: m.id,
        ...judgeReversal(
          m,
          m.origin === "added" && m.value === 0 ? null : m.value,
          loaded,
          path,
          plateaus,
          drags,
          m.why,
        ),
      })),
    protocol: question.steps ? matchSteps(question.steps, plateaus) : null,
    marks,
    corrected,
    held: heldLoad(corrected.marks, question.readAt, {
      heldFor: settings.heldFor,
      heldWithin: settings.heldWithin,
      ...(path ? { moved: (m) => path.moved(m) } : {}),
      byLoadAlone: (m) => drags.find((d) => d.id === m.id)?.seenIn === "load",
    }),
    series: { time: log.time, load },
  };
}

function levelsOf(loaded: Loaded): number[] {
  return LEVELS.map((share) => share * loaded.top);
}

/** A drag as its mark stands; one marked by hand has the boat's movement looked up. */
function dragOf(mark: CorrectedMark, found: readonly Drag[], path: AnchorPath | null): Drag {
  const load = { value: mark.value, u: mark.u };
  const own = found.find((d) => d.id === mark.automatic?.id);
  if (own) return { ...own, id: mark.id, from: mark.from, to: mark.to, load };
  const moved = path?.moved(mark);
  const distance = moved ? { value: moved.value, u: moved.u } : null;
  return { id: mark.id, from: mark.from, to: mark.to, seenIn: "hand", load, lost: null, distance, why: mark.why };
}
