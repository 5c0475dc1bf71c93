import { XMLBuilder, XMLParser, XMLValidator } from "fast-xml-parser";
import { z } from "zod";
import { InputError, quoted } from "../quantity/index.ts";

/** A place as other programs know it: a named point. */
export interface Place {
  readonly name: string;
  readonly latitude_deg: number;
  readonly longitude_deg: number;
  readonly description?: string | null;
}

/**
 * Places as GeoJSON: longitude first, WGS 84.
 * @source RFC 7946, sections 3.1.1 (position), 3.2 (Feature) and 4 (WGS 84); recalled
 */
export function writeGeoJson(places: readonly (Place & { readonly id?: string })[]): string {
  return `${JSON.stringify(
    {
      type: "FeatureCollection",
      features: places.map((p) => ({
        type: "Feature",
        ...(p.id === undefined ? {} : { id: p.id }),
        geometry: { type: "Point", coordinates: [p.longitude_deg, p.latitude_deg] },
        properties: { name: p.name, description: p.description ?? null },
      })),
    },
    null,
    1,
  )}\n`;
}

const feature = z.looseObject({
  geometry: z.looseObject({ type: z.string(), coordinates: z.unknown() }).nullable(),
  properties: z.looseObject({ name: z.string().optional(), description: z.string().nullish() }).nullish(),
});
const point = z.tuple([z.number().min(-180).max(180), z.number().min(-90).max(90)]).rest(z.number());

/** The points of a GeoJSON text; what is not a point is left out. */
export function readGeoJson(text: string, place: string): Place[] {
  let given: unknown;
  try {
    given = JSON.parse(text);
  } catch {
    throw new InputError(place, "not JSON", "GeoJSON is expected");
  }
  const collection = z
    .looseObject({ type: z.literal("FeatureCollection"), features: z.array(feature) })
    .safeParse(given);
  if (!collection.success)
    throw new InputError(place, "not a FeatureCollection", "a GeoJSON FeatureCollection is expected");
  return collection.data.features.flatMap(({ geometry, properties }, i) => {
    if (geometry?.type !== "Point") return [];
    const position = point.safeParse(geometry.coordinates);
    if (!position.success)
      throw new InputError(
        `${place}: features[${i}]`,
        quoted(geometry.coordinates),
        "longitude and latitude in degrees are expected",
      );
    const [longitude_deg, latitude_deg] = position.data;
    return [
      {
        name: properties?.name || `place ${i + 1}`,
        latitude_deg,
        longitude_deg,
        description: properties?.description || null,
      },
    ];
  });
}

/**
 * Places as waypoints of GPX 1.1.
 * @source the GPX 1.1 schema (topografix.com/GPX/1/1): wpt with lat and lon in decimal degrees, WGS 84; recalled
 */
export function writeGpx(places: readonly Place[]): string {
  const xml = new XMLBuilder({
    ignoreAttributes: false,
    attributeNamePrefix: "@",
    format: true,
    suppressEmptyNode: true,
  });
  return xml.build({
    "?xml": { "@version": "1.0", "@encoding": "UTF-8" },
    gpx: {
      "@version": "1.1",
      "@creator": "rodebench",
      "@xmlns": "http://www.topografix.com/GPX/1/1",
      wpt: places.map((p) => ({
        "@lat": String(p.latitude_deg),
        "@lon": String(p.longitude_deg),
        name: plainText(p.name),
        ...(p.description ? { desc: plainText(p.description) } : {}),
      })),
    },
  }) as string;
}

/** The waypoints of a GPX text. */
export function readGpx(text: string, place: string): Place[] {
  if (XMLValidator.validate(text) !== true)
    throw new InputError(place, "not well-formed XML", "a GPX file is expected");
  const parser = new XMLParser({
    ignoreAttributes: false,
    attributeNamePrefix: "@",
    parseTagValue: false,
    parseAttributeValue: false,
    processEntities: true,
    isArray: (name) => name === "wpt",
  });
  const root = (parser.parse(text) as { gpx?: { wpt?: Record<string, unknown>[] } }).gpx;
  if (root === undefined) throw new InputError(place, "no gpx element", "a GPX file is expected");
  return (root.wpt ?? []).map((wpt, i) => {
    const latitude_deg = Number(wpt["@lat"]);
    const longitude_deg = Number(wpt["@lon"]);
    if (!(Math.abs(latitude_deg) <= 90 && Math.abs(longitude_deg) <= 180))
      throw new InputError(
        `${place}: wpt ${i + 1}`,
        `lat ${quoted(wpt["@lat"])}, lon ${quoted(wpt["@lon"])}`,
        "degrees are expected",
      );
    return { name: textOf(wpt.name) ?? `place ${i + 1}`, latitude_deg, longitude_deg, description: textOf(wpt.desc) };
  });
}

const textOf = (value: unknown): string | null => (typeof value === "string" && value !== "" ? value : null);

/** XML 1.0 has no place for control characters. */
// biome-ignore lint/suspicious/noControlCharactersInRegex: these are the ones meant
const plainText = (text: string): string => text.replace(/[\u0000-\u0008\u000b\u000c\u000e-\u001f\ufffe\uffff]/g, " ");
