import { type Even, evenly } from "./even.ts";
import { type Loaded, loadedOf } from "./loaded.ts";
import type { TraceQuestion } from "./reduction.ts";
import { settingsWith, type TraceSettings } from "./settings.ts";
import { spikes } from "./spikes.ts";
import { displayStep, type Readings, readings, type Trace } from "./trace.ts";
import { findZero, withoutZero, type Zero } from "./zero.ts";

/** The load of a trace made fit to decide on: spikes found, in grains, its zero taken off. */
export interface LoadedTrace {
  readonly settings: TraceSettings;
  readonly log: Readings;
  readonly lone: ReturnType<typeof spikes>;
  readonly zero: Zero;
  readonly even: Even;
  readonly loaded: Loaded;
}

/** @throws InputError naming the channel and row when times run backward or a channel is empty */
export function loadedTrace(trace: Trace, question: TraceQuestion): LoadedTrace {
  const asked = settingsWith(question.settings);
  const log = readings(trace.time, trace.load, asked.longestGap, "load");
  const settings = { ...asked, cell: { ...asked.cell, step: Math.max(asked.cell.step, displayStep(log.value)) } };
  const from = log.time[0]!;
  const to = log.time.at(-1)!;
  const lone = spikes(log, settings.spike.longest, settings.spike.clear);
  const believed = (t: number): boolean => (question.believed ?? []).some((s) => t >= s.from && t <= s.to);
  for (let i = 0; i < log.time.length; i++) if (lone.leftOut[i] === 1 && believed(log.time[i]!)) lone.leftOut[i] = 0;

  // A very long or very slow log gets coarser grains: a reading each, and at most some hundred thousand.
  const grain = Math.max(settings.grain, log.interval, (to - from) / 200_000);
  const raw = evenly(log, grain, from, to, lone.leftOut);
  const zero = findZero(raw, settings, question.slack);
  const even = { ...raw, value: withoutZero(zero, raw.value.length, (k) => from + (k + 0.5) * grain, raw.value) };
  const loaded = loadedOf(even, settings, { noise: lone.noise, interval: log.interval });
  return { settings, log, lone, zero, even, loaded };
}
