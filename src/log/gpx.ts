/** Tracks of GPX 1.0 and 1.1: points with their times, in the order of the file. */
import { InputError, quoted } from "../quantity/index.ts";
import type { MarkedBatch } from "./batch.ts";
import type { Ended } from "./cause.ts";
import type { ChannelKind } from "./channel.ts";
import { bytesOf } from "./encoding.ts";
import { StampReader } from "./stamp.ts";
import { type LogMark, type OrderState, TimeOrder } from "./time-order.ts";
import { type TroubleCount, Troubles } from "./troubles.ts";
import { XmlElements } from "./xml-elements.ts";

/** The channels a track may have, in the order of a batch's values: decimal degrees of WGS 84, m/s, rad from true north. */
export const TRACK_CHANNELS = ["latitude", "longitude", "speed", "course"] as const satisfies readonly ChannelKind[];

const NUMBER = /^\s*[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d+)?\s*$/i;

/** What is known of the point being read. */
interface Point {
  lat: string | undefined;
  lon: string | undefined;
  line: number;
  time: string;
  speed: string;
  course: string;
}

/**
 * Reads the tracks of a GPX document piece by piece. Entities are not expanded; routes and waypoints are not tracks.
 * @source GPX 1.1 schema, topografix.com/GPX/1/1 (trk, trkseg, trkpt with lat and lon, time as xsd:dateTime)
 */
export class GpxReader {
  readonly troubles = new Troubles();
  /** Points read so far, those taken included. */
  rows = 0;
  /** Which of speed and course any point has stated so far. */
  readonly states = { speed: false, course: false };
  private readonly place: string;
  private readonly xml: XmlElements;
  private readonly order = new TimeOrder(0, false);
  private readonly stamps = new StampReader("ymd");
  private time: number[] = [];
  private values: number[][] = [[], [], [], []];
  private point: Point | null = null;
  private met = { points: 0, waypoints: 0, routes: 0 };
  /** Where and why reading ended before the document did: it is cut off, or no longer XML. */
  ended: Ended | null = null;

  constructor(place: string) {
    this.place = place;
    this.xml = new XmlElements(place, {
      open: (path, attributes, line) => this.open(path, attributes, line),
      close: (path, text) => this.closed(path, text),
    });
  }

  /**
   * What cannot be read any further ends the track there, and is told by `ended`.
   * @throws InputError when it is no XML or no GPX from the beginning
   */
  write(text: string): void {
    this.orEnd(() => this.xml.write(text));
  }

  /** @throws InputError when it holds no point with a time */
  close(): void {
    this.orEnd(() => this.xml.close());
    const { points, waypoints, routes } = this.met;
    if (points === 0) {
      const besides = waypoints + routes > 0 ? `${waypoints} waypoints and ${routes} routes, no track` : "no track";
      throw new InputError(this.place, besides, "a track of points with times is expected");
    }
    if (this.rows === 0) {
      const { line, value, expected } = this.troubles.first[0]!;
      throw new InputError(`${this.place}: line ${line}`, quoted(value), expected);
    }
  }

  private orEnd(step: () => void): void {
    if (this.ended !== null) return;
    try {
      step();
    } catch (error) {
      if (!(error instanceof InputError) || this.rows === 0) throw error;
      const met = error.given.replace(/^line \d+: /, "");
      const line = Number(/line (\d+)/.exec(error.given)?.[1] ?? this.xml.line);
      this.ended = { line, why: { kind: "brokenOff", met } };
    }
  }

  /** Points read and not taken yet. */
  get ready(): number {
    return this.time.length;
  }

  get counts(): OrderState["counts"] {
    return this.order.counts;
  }

  /** Takes the points out: a place, speed and course each, NaN where none is stated. */
  take(): MarkedBatch {
    const { time, values, order } = this;
    const { marks } = order;
    order.marks = [];
    this.time = [];
    this.values = [[], [], [], []];
    return { rows: time.length, time: Float64Array.from(time), values: values.map((v) => Float64Array.from(v)), marks };
  }

  private open(path: readonly string[], attributes: Readonly<Record<string, string>>, line: number): void {
    const name = path.at(-1)!;
    if (path.length === 1) {
      if (name !== "gpx") throw new InputError(this.place, "no GPX document", "an element gpx with tracks is expected");
    } else if (path.length === 2) {
      if (name === "wpt") this.met.waypoints++;
      else if (name === "rte") this.met.routes++;
    } else if (path.length === 4 && name === "trkpt" && path[1] === "trk" && path[2] === "trkseg") {
      this.met.points++;
      this.point = { lat: attributes.lat, lon: attributes.lon, line, time: "", speed: "", course: "" };
    }
  }

  private closed(path: readonly string[], text: string): void {
    const { point } = this;
    if (point === null) return;
    if (path.length === 4) {
      this.keep(point);
      this.point = null;
    } else if (path.length === 5) {
      const name = path[4]!;
      if (name === "time" || name === "speed" || name === "course") point[name] = text.trim();
    }
  }

  private keep({ lat, lon, line, time: stamp, speed, course }: Point): void {
    const place = [degrees(lat, 90), degrees(lon, 180)] as const;
    const time = this.stamps.read(bytesOf(stamp), 0, stamp.length);
    const placed = lat !== undefined && lon !== undefined;
    // 0° N 0° E is where receivers without a fix say they are.
    if (place[0] === 0 && place[1] === 0) {
      this.troubles.standIn(line, "lat 0, lon 0");
      return;
    }
    if (!placed || Number.isNaN(time) || place.some(Number.isNaN)) {
      this.troubles.rejected++;
      if (placed && Number.isNaN(time))
        this.troubles.note(line, stamp || "no time", "a point with a time such as 2024-05-03T12:34:56Z is expected");
      else
        this.troubles.note(
          line,
          placed ? `lat ${quoted(lat)}, lon ${quoted(lon)}` : "no lat or lon",
          "lat from -90 to 90 and lon from -180 to 180 are expected",
        );
      return;
    }
    const motion = [plain(speed), (plain(course) * Math.PI) / 180] as const;
    if (!Number.isNaN(motion[0])) this.states.speed = true;
    if (!Number.isNaN(motion[1])) this.states.course = true;
    this.time.push(this.order.next(time, this.rows, line));
    for (const [k, value] of [...place, ...motion].entries()) this.values[k]!.push(value);
    this.rows++;
  }
}

/** Points of a GPX track over time. */
export interface GpxTrack {
  readonly rows: number;
  /** s since 1970, UTC. */
  readonly time: Float64Array;
  /** Decimal degrees, WGS 84. */
  readonly latitude: Float64Array;
  readonly longitude: Float64Array;
  /** m/s and rad from true north, where a point states them; null where none does. */
  readonly speed: Float64Array | null;
  readonly course: Float64Array | null;
  readonly marks: readonly LogMark[];
  readonly troubles: TroubleCount;
  readonly ended: Ended | null;
}

/**
 * Reads the tracks of a whole document.
 * @throws InputError when it is no XML, no GPX, or holds no point with a time.
 */
export function readGpx(text: string, place: string): GpxTrack {
  const reader = new GpxReader(place);
  reader.write(text);
  reader.close();
  const { rows, time, values, marks } = reader.take();
  const [latitude, longitude, speed, course] = values as [Float64Array, Float64Array, Float64Array, Float64Array];
  return {
    rows,
    time,
    latitude,
    longitude,
    speed: reader.states.speed ? speed : null,
    course: reader.states.course ? course : null,
    marks,
    troubles: reader.troubles.count(),
    ended: reader.ended,
  };
}

/**
 * An angle in decimal degrees as it is written; nothing written is no 0.
 * @param most degrees, 90 of a latitude, 180 of a longitude
 * @returns degrees; NaN for what is none or beyond `most`
 */
export function degrees(text: string | undefined, most: number): number {
  const value = text !== undefined && NUMBER.test(text) ? Number(text) : Number.NaN;
  return Math.abs(value) <= most ? value : Number.NaN;
}

function plain(text: string): number {
  const value = NUMBER.test(text) ? Number(text) : Number.NaN;
  return Math.abs(value) < 1e12 ? value : Number.NaN;
}
