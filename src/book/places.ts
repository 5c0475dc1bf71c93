import { z } from "zod";
import { degrees, XmlElements } from "../log/index.ts";
import { InputError, nth, quoted, readJson } from "../quantity/index.ts";

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
  const given = readJson(text, place, "GeoJSON is expected");
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
        `${place}: features${nth(i)}`,
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
  const points = places.map(({ name, latitude_deg, longitude_deg, description }) => {
    const desc = description ? `\n    <desc>${xmlText(description)}</desc>` : "";
    return `  <wpt lat="${latitude_deg}" lon="${longitude_deg}">\n    <name>${xmlText(name)}</name>${desc}\n  </wpt>\n`;
  });
  const root = '<gpx version="1.1" creator="rodebench" xmlns="http://www.topografix.com/GPX/1/1">';
  return `<?xml version="1.0" encoding="UTF-8"?>\n${root}\n${points.join("")}</gpx>\n`;
}

/** The waypoints of a GPX text. */
export function readGpx(text: string, place: string): Place[] {
  const places: { name: string; latitude_deg: number; longitude_deg: number; description: string | null }[] = [];
  const xml = new XmlElements(place, {
    open(path, { lat, lon }) {
      if (path.length === 1 && path[0] !== "gpx")
        throw new InputError(place, "no gpx element", "a GPX file is expected");
      if (path.length !== 2 || path[1] !== "wpt") return;
      const [latitude_deg, longitude_deg] = [degrees(lat, 90), degrees(lon, 180)];
      if (Number.isNaN(latitude_deg) || Number.isNaN(longitude_deg))
        throw new InputError(
          `${place}: wpt ${places.length + 1}`,
          `lat ${quoted(lat)}, lon ${quoted(lon)}`,
          "degrees are expected",
        );
      places.push({ name: `place ${places.length + 1}`, latitude_deg, longitude_deg, description: null });
    },
    close(path, given) {
      const last = places.at(-1);
      const value = given.trim();
      if (last === undefined || path.length !== 3 || path[1] !== "wpt" || value === "") return;
      if (path[2] === "name") last.name = value;
      else if (path[2] === "desc") last.description = value;
    },
  });
  xml.write(text);
  xml.close();
  return places;
}

/** Text as it may stand in an element; XML 1.0 has no place for control characters. */
function xmlText(text: string): string {
  return (
    text
      // biome-ignore lint/suspicious/noControlCharactersInRegex: these are the ones meant
      .replace(/[\u0000-\u0008\u000b\u000c\u000e-\u001f\ufffe\uffff]/g, " ")
      .replace(/[&<>\r]/g, (sign) => `&#${sign.charCodeAt(0)};`)
  );
}
