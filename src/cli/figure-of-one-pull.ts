import { type Book, columnsOf } from "../book/index.ts";
import { type FigureMade, type OnePullDrawn, onePullFigure } from "../publish/index.ts";
import type { Ports, RecordOf } from "../record/index.ts";
import { type BookMark, effectiveMarks, loadChannelOf } from "../study/index.ts";
import type { BookFigureOptions } from "./book-figure-options.ts";
import { withBook } from "./book-with.ts";
import { NoAnswer } from "./exit.ts";
import type { Io } from "./io.ts";
import { placeOf } from "./options.ts";
import { recordId, shortId } from "./record-name.ts";

/** A pull of a book as it went, as a figure. @throws InputError for a pull it has not; NoAnswer without a log of loads */
export function figureOfOnePull(path: string, options: BookFigureOptions, io: Io, ports: Ports): Promise<FigureMade> {
  return withBook(io, ports, path, options, (book) => {
    const pull = book.get("pull", recordId(book, options.pull!, "--pull", "pull"))!;
    const log = loadsOf(book, pull.id);
    if (log === null)
      throw new NoAnswer(
        `${placeOf(path)}: no log of loads belongs to pull ${shortId(pull.id)}; one brought in for it would give a figure`,
      );
    return {
      ...onePullFigure({ ...log, ...aboutPull(book, pull) }, options.units),
      invented: book.about().simulated === true,
    };
  });
}

/** Of the logs of a pull that hold loads, the one with most readings. */
function loadsOf(book: Book, pull: string): Pick<OnePullDrawn, "time" | "load" | "marks"> | null {
  const logs = book.list("log", { where: { pull } }).flatMap(({ id, channels }) => {
    const channel = loadChannelOf(channels ?? []);
    const { rows } = book.logs.content(id);
    return channel === undefined || rows === 0 ? [] : [{ id, channel, rows }];
  });
  const log = logs.reduce<(typeof logs)[number] | null>(
    (most, one) => (most === null || one.rows > most.rows ? one : most),
    null,
  );
  if (log === null) return null;
  const { time, values } = columnsOf(book, log.id, [log.channel]);
  const marks = effectiveMarks(book.list("mark", { where: { log: log.id } }) as unknown as BookMark[]);
  return {
    ...{ time, load: values[0]! },
    marks: marks
      .filter(({ takenAway }) => !takenAway)
      .sort((a, b) => a.from - b.from)
      // A step says in its remarks which, as the deck wrote it.
      .map(({ kind, from, byHand }) => ({
        time: from,
        text: kind === "step" ? (byHand?.remarks?.split("\n")[0] ?? kind) : kind,
      })),
  };
}

function aboutPull(
  book: Book,
  { id, anchor, number, loadAt, result }: RecordOf<"pull">,
): Pick<OnePullDrawn, "name" | "at" | "result"> {
  const name = anchor === null ? undefined : book.get("anchor", anchor)?.name;
  const load = result === null || result.kind === "none" || result.load_N === undefined ? null : result.load_N;
  return {
    name: `${name ?? "An anchor"}, pull ${number ?? shortId(id)}`,
    at: loadAt === "anchor" ? "anchor" : "bow",
    result:
      result === null || result.kind === "none" || load === null
        ? null
        : { kind: result.kind, newtons: load, u: result.u_N ?? 0 },
  };
}
