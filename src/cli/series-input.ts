/** A series to plan: from a file, with the table of pulls it names, or from a book that keeps one with its pulls. */
import { resolve } from "node:path";
import type { Pull } from "../holding/index.ts";
import { InputError, quoted } from "../quantity/index.ts";
import type { Ports } from "../record/index.ts";
import { readSeries, type Series, seriesBook } from "../series/index.ts";
import { holdRuleOfSeries, isPlan } from "../study/index.ts";
import { besideFile } from "./beside.ts";
import { withBook } from "./book-with.ts";
import { isBook, pullsAt } from "./compare-input.ts";
import type { Io } from "./io.ts";
import { placeOf, type Shown } from "./options.ts";

interface Options extends Shown {
  readonly series?: string;
  readonly book?: string;
}

/** @throws InputError naming what is wrong with the file, the book, or the series it keeps */
export async function seriesAt(path: string, io: Io, ports: Ports, options: Options): Promise<Series> {
  if (path !== "-" && isBook(resolve(io.cwd, path))) return fromBook(path, io, ports, options);
  if (options.series !== undefined)
    throw new InputError("--series", quoted(options.series), "a book is expected: a file holds one series");
  const text = await io.read(path);
  const place = placeOf(path);
  const named = seriesBook(text, place);
  const from = options.book ?? (named === undefined ? undefined : besideFile(path, named));
  return readSeries(text, place, from === undefined ? [] : await pullsOf(from, io, ports, options));
}

async function pullsOf(path: string, io: Io, ports: Ports, options: Shown): Promise<readonly Pull[]> {
  return (await pullsAt(path, io, ports, { ...options })).pulls;
}

/** A series of a book states its file as its protocol; what its pulls held is in the book already. */
async function fromBook(path: string, io: Io, ports: Ports, options: Options): Promise<Series> {
  const kept = await withBook(io, ports, path, options, async (book) => {
    const all = book.list("series").filter(({ protocol }) => isPlan(protocol));
    const chosen =
      options.series === undefined ? all : all.filter(({ id, name }) => [id, name].includes(options.series!));
    if (chosen.length !== 1) {
      const names = all.map(({ name }) => quoted(name)).join(", ");
      const given = options.series === undefined ? `${all.length} series with a plan` : quoted(options.series);
      throw new InputError(
        options.series === undefined ? path : "--series",
        given,
        all.length === 0
          ? "a series whose protocol is the text of a series file is expected"
          : `one of ${names} is expected with --series`,
      );
    }
    const { id, protocol } = chosen[0]!;
    return {
      id,
      protocol: protocol!,
      rule: holdRuleOfSeries(chosen[0]!),
      pulls: book.list("pull").filter(({ series }) => series === id).length,
    };
  });
  const pulls = kept.pulls === 0 ? [] : (await pullsAt(path, io, ports, { ...options, series: kept.id })).pulls;
  const series = readSeries(kept.protocol, `${path}: protocol`, pulls);
  // As its pulls are judged: what the record states stands before what its text does.
  return { ...series, holdRule: { ...series.holdRule, ...kept.rule } };
}
