/**
 * Logs of Signal K deltas, one JSON document a line: values by path, in SI units as that standard has them. Lines of
 * other kinds, such as a server's hello, are passed over.
 */
import { z } from "zod";
import { linesOf } from "./cells.ts";
import type { ChannelKind } from "./channel.ts";
import { bytesOf } from "./encoding.ts";
import { LineReader, type LineState, type LineTaker } from "./line-reader.ts";
import { NMEA_CHANNELS } from "./nmea.ts";
import { prefixTime } from "./nmea-sentence.ts";
import type { ChannelReading, SparseRows } from "./sparse-rows.ts";
import { StampReader } from "./stamp.ts";
import type { Troubles } from "./troubles.ts";

const delta = z.object({
  updates: z.array(
    z.object({
      timestamp: z.string().optional(),
      values: z.array(z.object({ path: z.string(), value: z.unknown() })).optional(),
    }),
  ),
});

const PATHS: Readonly<Record<string, ChannelKind>> = {
  "navigation.speedOverGround": "speed",
  "navigation.courseOverGroundTrue": "course",
  "navigation.headingMagnetic": "heading",
  "navigation.headingTrue": "headingTrue",
  "environment.wind.speedApparent": "windSpeed",
  "environment.wind.angleApparent": "windAngle",
  "environment.wind.speedTrue": "trueWindSpeed",
  "environment.wind.angleTrueWater": "trueWindAngle",
  "environment.wind.directionTrue": "windDirection",
  "environment.depth.belowSurface": "depth",
  "environment.depth.belowTransducer": "depthBelowTransducer",
};

const place = z.object({ latitude: z.number().min(-90).max(90), longitude: z.number().min(-180).max(180) });

/** The readings of one path; a load is what a path that ends in load, tension, force or pull holds, N. */
export function pathReadings(path: string, value: unknown, loadPath?: string): readonly ChannelReading[] {
  if (path === "navigation.position") {
    const found = place.safeParse(value);
    if (!found.success) return [];
    return [
      { kind: "latitude", value: found.data.latitude },
      { kind: "longitude", value: found.data.longitude },
    ];
  }
  if (typeof value !== "number" || !Number.isFinite(value)) return [];
  const kind = PATHS[path];
  if (kind !== undefined)
    return [{ kind, value: kind === "windAngle" || kind === "trueWindAngle" ? clockwise(value) : value }];
  const isLoad = loadPath === undefined ? /(^|\.)(load|tension|force|pull)$/i.test(path) : path === loadPath;
  return isLoad ? [{ kind: "load", value }] : [];
}

/** Signal K counts wind angles to port below zero; sentences and this program count clockwise. */
function clockwise(angle: number): number {
  return angle < 0 ? angle + 2 * Math.PI : angle;
}

export interface SignalKGuess {
  readonly kind: "signalk";
  /** Paths met in the head of the file and how often. */
  readonly paths: Readonly<Record<string, number>>;
  /** True when updates state their time. */
  readonly timed: boolean;
}

/** Judges the head of a log of deltas; null when it holds none. */
export function guessSignalK(text: string): SignalKGuess | null {
  const paths: Record<string, number> = {};
  let deltas = 0;
  let written = 0;
  let timed = false;
  for (const line of linesOf(text, 500)) {
    if (line.text.trim() === "") continue;
    written++;
    const read = readDelta(line.text);
    if (typeof read === "string" || read.updates.length === 0) continue;
    deltas++;
    for (const update of read.updates) {
      if (update.timestamp !== undefined || !Number.isNaN(read.logged)) timed = true;
      for (const { path } of update.values ?? []) paths[path] = (paths[path] ?? 0) + 1;
    }
  }
  return deltas > 0 && deltas >= written * 0.3 ? { kind: "signalk", paths, timed } : null;
}

type Delta = z.infer<typeof delta> & { readonly logged: number };

/** One line as a delta, or what was expected of it. */
function readDelta(text: string): Delta | string {
  const start = text.indexOf("{");
  if (start < 0) return "a delta as JSON on one line is expected";
  let json: unknown;
  try {
    json = JSON.parse(text.slice(start));
  } catch {
    return "a whole JSON document on one line is expected";
  }
  if (typeof json === "object" && json !== null && !("updates" in json)) return { updates: [], logged: Number.NaN };
  const read = delta.safeParse(json);
  if (!read.success)
    return `a delta with updates of paths and values is expected (${read.error.issues[0]?.path.join(".") ?? ""})`;
  return { ...read.data, logged: prefixTime(text.slice(0, start)) };
}

/** All readings of one line, whatever their times; what was expected where it is no delta. */
export function signalKReadings(text: string, loadPath?: string): readonly ChannelReading[] | string {
  const read = readDelta(text);
  if (typeof read === "string") return read;
  return read.updates.flatMap((update) =>
    (update.values ?? []).flatMap(({ path, value }) => pathReadings(path, value, loadPath)),
  );
}

/** Makes the reader of a log of deltas. */
export function signalKReader(options: { loadPath?: string; capacity?: number; from?: LineState } = {}): LineReader {
  return new LineReader(NMEA_CHANNELS, new DeltaTaker(options.loadPath), options.capacity, options.from);
}

class DeltaTaker implements LineTaker {
  private readonly stamps = new StampReader("ymd");
  private readonly loadPath: string | undefined;

  constructor(loadPath: string | undefined) {
    this.loadPath = loadPath;
  }

  take(text: string, line: number, rows: SparseRows, troubles: Troubles): void {
    const read = readDelta(text);
    if (typeof read === "string") {
      troubles.rejected++;
      troubles.note(line, text, read);
      return;
    }
    for (const update of read.updates) {
      const time =
        update.timestamp === undefined
          ? read.logged
          : this.stamps.read(bytesOf(update.timestamp), 0, update.timestamp.length);
      if (!Number.isNaN(time)) rows.at(time, line);
      for (const { path, value } of update.values ?? []) {
        const readings = pathReadings(path, value, this.loadPath);
        if (readings.length === 0 || rows.add(readings, line) > 0) continue;
        troubles.unreadable++;
        troubles.note(line, text, "an update with a timestamp is expected before the first reading");
      }
    }
  }

  state(): unknown {
    return null;
  }
}
