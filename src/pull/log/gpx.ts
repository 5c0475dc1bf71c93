/** Tracks of GPX 1.0 and 1.1: points with their times, in the order of the file. */
import { XMLParser, XMLValidator } from "fast-xml-parser";
import { z } from "zod";
import { InputError, quoted } from "../../quantity/index.ts";
import { bytesOf } from "./encoding.ts";
import { StampReader } from "./stamp.ts";
import { type LogMark, TimeOrder } from "./time-order.ts";
import { type TroubleCount, Troubles, visible } from "./troubles.ts";

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
  readonly names: readonly string[];
  readonly segments: number;
  readonly marks: readonly LogMark[];
  readonly troubles: TroubleCount;
}

const point = z.object({
  lat: z.string(),
  lon: z.string(),
  time: z.string().optional(),
  speed: z.string().optional(),
  course: z.string().optional(),
});
const segment = z.union([z.object({ trkpt: z.array(z.unknown()).optional() }), z.literal("")]);
const track = z.union([z.object({ name: z.unknown().optional(), trkseg: z.array(segment).optional() }), z.literal("")]);
// An element without content is read as an empty text.
const file = z.object({
  gpx: z.union([
    z.object({
      trk: z.array(track).optional(),
      wpt: z.array(z.unknown()).optional(),
      rte: z.array(z.unknown()).optional(),
    }),
    z.literal(""),
  ]),
});

/** Largest track read at once, characters: the parser holds all of it in memory. */
export const LARGEST_GPX = 200e6;

const NUMBER = /^\s*[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d+)?\s*$/i;

/**
 * Reads the tracks of a GPX document. Entities are not expanded; routes and waypoints are not tracks.
 * @throws InputError when it is no XML, no GPX, or holds no point with a time.
 * @source GPX 1.1 schema, topografix.com/GPX/1/1 (trk, trkseg, trkpt with lat and lon, time as xsd:dateTime)
 */
export function readGpx(text: string, place: string): GpxTrack {
  if (text.length > LARGEST_GPX)
    throw new InputError(
      place,
      `${Math.round(text.length / 1e6)} million characters`,
      `a track of at most ${LARGEST_GPX / 1e6} million is expected; export it in parts`,
    );
  const valid = XMLValidator.validate(text);
  if (valid !== true)
    throw new InputError(
      place,
      `line ${valid.err.line}: ${visible(valid.err.msg).replace(/\.$/, "")}`,
      "a whole XML document is expected",
    );
  const parser = new XMLParser({
    ignoreAttributes: false,
    attributeNamePrefix: "",
    processEntities: false,
    parseTagValue: false,
    parseAttributeValue: false,
    removeNSPrefix: true,
    isArray: (name) => name === "trk" || name === "trkseg" || name === "trkpt" || name === "wpt" || name === "rte",
  });
  let parsed: unknown;
  try {
    parsed = parser.parse(text);
  } catch (error) {
    // The parser refuses some documents its validator lets pass.
    throw new InputError(
      place,
      visible((error as Error).message).replace(/\.$/, ""),
      "a whole XML document is expected",
    );
  }
  const read = file.safeParse(parsed);
  if (!read.success) throw new InputError(place, "no GPX document", "an element gpx with tracks is expected");
  const { trk = [], wpt = [], rte = [] } = read.data.gpx === "" ? {} : read.data.gpx;
  const tracks = trk.filter((one) => one !== "");
  const segments = tracks
    .flatMap((one) => one.trkseg ?? [])
    .flatMap((segment) => (segment === "" ? [] : [segment.trkpt ?? []]));
  const count = segments.reduce((sum, points) => sum + points.length, 0);
  if (count === 0) {
    const besides =
      wpt.length + rte.length > 0 ? `${wpt.length} waypoints and ${rte.length} routes, no track` : "no track";
    throw new InputError(place, besides, "a track of points with times is expected");
  }
  const columns = {
    time: new Float64Array(count),
    latitude: new Float64Array(count),
    longitude: new Float64Array(count),
    speed: new Float64Array(count),
    course: new Float64Array(count),
  };
  const troubles = new Troubles();
  const order = new TimeOrder(0, false);
  const stamps = new StampReader("ymd");
  let rows = 0;
  let nth = 0;
  for (const points of segments) {
    for (const one of points) {
      nth++;
      const found = point.safeParse(one);
      const lat = found.success ? degrees(found.data.lat, 90) : Number.NaN;
      const lon = found.success ? degrees(found.data.lon, 180) : Number.NaN;
      const stamp = found.success ? (found.data.time ?? "").trim() : "";
      const time = stamps.read(bytesOf(stamp), 0, stamp.length);
      if (Number.isNaN(lat) || Number.isNaN(lon) || Number.isNaN(time)) {
        troubles.rejected++;
        const value = !found.success
          ? "no lat or lon"
          : Number.isNaN(time)
            ? stamp === ""
              ? "no time"
              : stamp
            : `${found.data.lat} ${found.data.lon}`;
        // The parser keeps no lines: the point is told by its number instead.
        troubles.note(
          nth,
          value,
          Number.isNaN(time) && found.success
            ? "a point with a time such as 2024-05-03T12:34:56Z is expected"
            : "lat from -90 to 90 and lon from -180 to 180 are expected",
        );
        continue;
      }
      columns.time[rows] = order.next(time, rows, nth);
      columns.latitude[rows] = lat;
      columns.longitude[rows] = lon;
      columns.speed[rows] = plain(found.data!.speed);
      columns.course[rows] = (plain(found.data!.course) * Math.PI) / 180;
      rows++;
    }
  }
  if (rows === 0) {
    const first = troubles.first[0]!;
    throw new InputError(place, `point 1: ${quoted(first.value)}`, first.expected);
  }
  const cut = (column: Float64Array) => column.slice(0, rows);
  const orNull = (column: Float64Array) => (column.slice(0, rows).some((v) => !Number.isNaN(v)) ? cut(column) : null);
  return {
    rows,
    time: cut(columns.time),
    latitude: cut(columns.latitude),
    longitude: cut(columns.longitude),
    speed: orNull(columns.speed),
    course: orNull(columns.course),
    names: tracks.map((one) => one.name).filter((name): name is string => typeof name === "string" && name !== ""),
    segments: segments.length,
    marks: order.marks,
    troubles: troubles.count(),
  };
}

function degrees(text: string, most: number): number {
  const value = NUMBER.test(text) ? Number(text) : Number.NaN;
  return Math.abs(value) <= most ? value : Number.NaN;
}

function plain(text: string | undefined): number {
  const value = text !== undefined && NUMBER.test(text) ? Number(text) : Number.NaN;
  return Math.abs(value) < 1e12 ? value : Number.NaN;
}
