/** Days, hours and moments of a series file. */
import { InputError, nth, quoted } from "../quantity/index.ts";
import type { SeriesDay, SeriesSite } from "./series.ts";
import type { SeriesFields } from "./series-shape.ts";

const MOMENT = /^(\d{4}-\d\d-\d\d)[T ](\d\d:\d\d(?::\d\d)?)(Z|[+-]\d\d:\d\d)$/;

/** s since 1970 of a time with its zone. @throws InputError naming the field */
export function readMoment(given: string, place: string): number {
  const [, date, time, zone] = MOMENT.exec(given) ?? [];
  const ms = date === undefined ? Number.NaN : Date.parse(`${date}T${time}${zone}`);
  if (!Number.isFinite(ms))
    throw new InputError(place, quoted(given), 'a time with its zone is expected, such as "2026-06-02T05:10Z"');
  return ms / 1000;
}

export function readDays(
  given: NonNullable<SeriesFields["days"]>,
  sites: readonly SeriesSite[],
  place: string,
): SeriesDay[] {
  return given.map(({ date, site, from, to, zone = "Z" }, i) => {
    const at = (field: string) => `${place}: days${nth(i)}.${field}`;
    if (!sites.some(({ name }) => name === site))
      throw new InputError(
        at("site"),
        quoted(site),
        `one of the sites is expected: ${sites.map((s) => s.name).join(", ")}`,
      );
    const start = readMoment(`${date}T${from}${zone}`, at("from"));
    const end = readMoment(`${date}T${to}${zone}`, at("to"));
    if (!(end > start)) throw new InputError(at("to"), quoted(to), "an hour after from is expected");
    const offset = readMoment(`${date}T00:00Z`, at("date")) - readMoment(`${date}T00:00${zone}`, at("zone"));
    return { date, site, from: start, to: end, offset };
  });
}
