import { Command, Option } from "commander";
import type { Book } from "../book/index.ts";
import type { LogRows, TroubleCount } from "../log/index.ts";
import {
  giveOf,
  readCorrections,
  reduceTrace,
  type TraceReduction,
  tracedToJson,
  traceFromRows,
} from "../pull/index.ts";
import { DEGREES, InputError, quoted, type UnitSystem } from "../quantity/index.ts";
import { readRig } from "../rode/index.ts";
import {
  asPulled,
  type CarriedLoad,
  carryLoad,
  type Deployment,
  deploymentRecordOf,
  deploymentVeered,
  fieldsOfHow,
  type HowPulled,
  howPulled,
  lengthOutAt,
  traceBesideVeers,
  usualHoldRule,
} from "../study/index.ts";
import { grantedWords, noEquilibriumLine, traceWords, wordedEnd } from "../words/index.ts";
import type { LogOfBook } from "./book-log.ts";
import { NoAnswer } from "./exit.ts";
import type { Io } from "./io.ts";
import { logRows } from "./log-input.ts";
import { choicesFrom, withLogOptions } from "./log-options.ts";
import { answerJson, placeOf, rigAt, shown } from "./options.ts";
import { marksOnLog } from "./trace-marks.ts";
import {
  AUTO,
  counted,
  deploymentFrom,
  howFrom,
  spansOf,
  stepsOf,
  type TraceOptions,
  videoStartFrom,
} from "./trace-options.ts";
import { tracedText } from "./traced-text.ts";

export function traceCommand(io: Io): Command {
  const command = new Command("trace")
    .argument("<log>", "log of a load cell (CSV in any dialect, NMEA 0183, Signal K); - for standard input")
    .addOption(
      new Option(
        "--read-at <end>",
        "end of the rode the load cell sat at (default: as the pull in the book says, else the bow)",
      ).choices(["anchor", "bow"]),
    )
    .option("--rig <file>", "rig file: carries the held load to the other end, and takes the rode's give off movement")
    .option("--depth <length>", "surface above the anchor at the time of the pull: before that of the rig file")
    .option("--scope <number>", "length of rode out over the height of the bow roller above the anchor")
    .option("--paid-out <length>", "length of rode out, from anchor to roller: before the scope")
    .option("--track <file>", "where the boat was, when the log does not say: GPX, NMEA 0183, Signal K or CSV in UTC")
    .option(
      "--track-clock <time>",
      "added to the track's times, where its clock is off, such as -2.5 s; auto: as load and track tell it",
    )
    .option("--steps <plan>", "protocol, such as 500lbf:30s,1000lbf:30s")
    .option("--slack <spans>", "where the rode was slack, s from the first reading, such as 0..12,300..320")
    .option("--slack-load <load>", "what the cell truly carries while the rode is slack, such as rode hanging under it")
    .option("--hold-for <time>", `a load counts as held when kept this long (${usualHoldRule.heldFor} s)`)
    .option(
      "--hold-within <length>",
      `and, where a track tells it, the anchor moved by less meanwhile (${usualHoldRule.heldWithin} m)`,
    )
    .option("--ahead", "the boat pulled ahead, her bow away from the anchor: how her heading is read")
    .option("--astern", "with --book: she pulled astern, whatever the pull in the book says")
    .option("--bearing <angle>", "which way the boat lay from the anchor, true, such as 215 deg")
    .option("--anchor-at <place>", 'where the anchor lay, latitude and longitude, such as "48.1234, -5.0678"')
    .option(
      "--tare <load>",
      "what the cell shows with nothing on it: taken off each reading, before the calibration (0)",
    )
    .option("--calibration <factor>", "true load for each load read, by the cell's calibration (1)")
    .option("--video <file>", "marks of a video of the pull: WebVTT, or a table of times and words")
    .option("--video-start <time>", "when the video began, from the log's first reading, such as 12 s")
    .option("--corrections <file>", "changes to the marks (rodebench/corrections@1)")
    .option("--channel <name>", "load channel, when the log has several; load+load-2 is their sum")
    .option("--part <number>", "part of a log whose clock was started again")
    .option(
      "--book <book>",
      "the log lies in this book, named by its id or its name; rig, depth and marks are its pull's",
    )
    .option("--keep", "with --book: writes what the pull held into the pull's record")
    .option("--who <name>", "with --keep: who writes; without it your name on this computer");
  return shown(withLogOptions(command)).action(async (path: string, options: TraceOptions) => {
    if (options.book === undefined) {
      if (options.keep === true) throw new InputError("--keep", "without --book", "a book whose log it is is expected");
      const place = placeOf(path);
      await trace(
        { rows: await logRows(path, io, choicesFrom(options), [...TRACE_KINDS, ...TRACK_KINDS]), place },
        null,
      );
      return;
    }
    // What a book needs is read for a book only.
    const [{ systemPorts }, { withBook }, { logOfBook }] = await Promise.all([
      import("../book/index.ts"),
      import("./book-with.ts"),
      import("./book-log.ts"),
    ]);
    await withBook(io, systemPorts, options.book, options, async (book) => {
      const own = logOfBook(book, path, howFrom(options).trackClock);
      await trace({ rows: own.rows, place: own.name }, { book, own });
    });

    async function trace({ rows, place }: { rows: LogRows; place: string }, kept: Kept | null): Promise<void> {
      const pull = kept?.own.about?.pull ?? null;
      const readAt = options.readAt ?? (pull?.loadAt === "anchor" ? "anchor" : "bow");
      const auto = options.trackClock === AUTO;
      let stated = howFrom(options);
      const how: HowPulled = { ...howPulled(kept?.own.about ?? null), ...stated, ...(auto ? { trackClock: 0 } : {}) };
      const beside =
        options.track === undefined
          ? (kept?.own.beside ?? undefined)
          : { rows: await logRows(options.track, io, {}, TRACK_KINDS), place: placeOf(options.track) };
      const made = traceFromRows(rows, place, {
        ...(options.channel === undefined ? {} : { channel: options.channel }),
        ...(options.part === undefined ? {} : { part: counted(options.part, "--part") }),
        ...(beside === undefined ? {} : { beside: { ...beside, clock: how.trackClock ?? 0 } }),
      });
      if (stated.anchorAt !== undefined && made.trace.track === undefined)
        throw new InputError(
          "--anchor-at",
          quoted(options.anchorAt),
          "the boat's track is expected with it: --track FILE",
        );
      const rig = options.rig === undefined ? null : await rigAt(options.rig, io);
      const lay = (paidOut: number | null) =>
        (rig === null && kept !== null ? deploymentInBook(kept.own, options, paidOut) : null) ??
        deploymentFrom(rig, options);
      const atFirst = lay(null);
      const give = atFirst && giveOf(atFirst.rig, readAt);
      const start = made.trace.time[0] ?? 0;
      const corrections =
        options.corrections === undefined
          ? (kept?.own.corrections ?? [])
          : readCorrections(await io.read(options.corrections), placeOf(options.corrections));
      const veers = kept?.own.veers ?? [];
      const question = {
        readAt,
        corrections,
        ...(give ? { give } : {}),
        ...(options.steps === undefined ? {} : { steps: stepsOf(options.steps) }),
        ...(options.slack === undefined
          ? kept === null || kept.own.slack.length === 0
            ? {}
            : { slack: kept.own.slack }
          : { slack: spansOf(options.slack, start) }),
      };
      const { trace: clocked, settings } = asPulled(made.trace, how);
      const { trace: seen, trackOverVeer } = traceBesideVeers(clocked, veers);
      // Two logs on one clock need none; where it was stated it stands.
      const asksClock = auto || (beside !== undefined && how.trackClock === undefined);
      const reduction = told(place, () =>
        reduceTrace(seen, { ...question, settings, ...(asksClock ? { clock: auto ? "applied" : "told" } : {}) }),
      );
      const { clock } = reduction;
      const apart = options.track === undefined ? (kept?.own.apart ?? null) : null;
      if (auto && clock?.kind === "told") stated = { ...stated, trackClock: clock.offset.value };
      const { held } = reduction;
      const on = held.kind === "notKnown" ? undefined : reduction.corrected.marks.find(({ id }) => id === held.mark);
      const paidOut = on === undefined ? null : lengthOutAt(veers, on.from);
      const then = paidOut === null ? atFirst : lay(paidOut);
      const deployment: Deployment | null =
        then && trackOverVeer ? { ...then, doubts: [...then.doubts, { kind: "trackOverVeer" }] } : then;
      const videoStart = videoStartFrom(options, start);
      const video =
        options.video === undefined
          ? null
          : marksOnLog(await io.read(options.video), placeOf(options.video), reduction, rows.clock, videoStart);
      const carried =
        deployment === null || held.kind === "notKnown"
          ? null
          : carryLoad(deployment, { value: held.newtons, u: held.u }, held.at);
      if (carried?.kind === "noEquilibrium")
        throw new NoAnswer(
          `${options.rig === undefined ? place : placeOf(options.rig)}: ${noEquilibriumLine(carried, options.units, deployment?.rig.setting.medium)}`,
        );
      const written =
        options.keep === true && kept !== null
          ? keepHeld(kept, reduction, stated, paidOut, place, options.units)
          : null;
      if (options.json)
        answerJson(io, {
          ...tracedToJson(reduction, traceWords("metric")),
          clock: rows.clock,
          trackClock:
            clock === null
              ? null
              : clock.kind === "told"
                ? {
                    ...{ kind: clock.kind, offset_s: clock.offset.value, u_s: clock.offset.u },
                    applied: clock.applied,
                  }
                : { kind: clock.kind },
          ...(kept === null ? {} : { trackApart: apart && { log: apart.place, seconds: apart.seconds } }),
          channel: made.channel,
          part: made.part,
          parts: made.parts,
          unread: unreadOf(rows.troubles),
          remarks: rows.remarks.map(grantedWords),
          seen: rows.seen.map(({ kind, channel, count, line, newtons }) => ({
            kind,
            channel,
            count,
            line,
            load_N: newtons,
          })),
          ended: wordedEnd(rows.ended),
          video:
            video === null
              ? null
              : video.map(({ from, to, text, load, way }) => ({
                  from_s: from,
                  to_s: to,
                  text,
                  load_N: load,
                  way: way && { value_m: way.value, u_m: way.u },
                })),
          carried: carried && held.kind !== "notKnown" ? carriedFields(held.kind, carried, deployment!) : null,
          ...(kept === null ? {} : { pull: pull?.id ?? null, kept: written }),
        });
      else {
        io.out(
          tracedText({ reduction, made, rows, carried, deployment, place, units: options.units, video, clock, apart }),
        );
        if (written !== null)
          io.out(
            written.transaction === null
              ? "\nThe pull's record says so already\n"
              : `\nKept in the pull's record; rodebench book undo ${options.book} takes it back\n`,
          );
      }
    }
  });
}

interface Kept {
  readonly book: Book;
  readonly own: LogOfBook;
}

/** The rig of the log's pull in the pull's own water, as its records have it, but for what the line says otherwise. */
function deploymentInBook({ about }: LogOfBook, options: TraceOptions, paidOut: number | null): Deployment | null {
  if (about === null || about.rigFile === null) return null;
  const told = options.depth !== undefined || options.scope !== undefined || options.paidOut !== undefined;
  const rig = readRig(about.rigFile, "rigVersion.file");
  if (told) return deploymentFrom(rig, options);
  return deploymentVeered(rig, deploymentRecordOf(about), paidOut);
}

/** An answer about the readings; what is wrong with them is told with the name of their log. */
function told<T>(place: string, answer: () => T): T {
  try {
    return answer();
  } catch (error) {
    throw error instanceof InputError && error.place === "load" ? error.within(place) : error;
  }
}

/** Writes what was held into the pull's record, and what was stated of how it is to be read. @throws InputError where there is no pull, or nothing to keep */
function keepHeld(
  { book, own }: Kept,
  { held, log }: TraceReduction,
  stated: HowPulled,
  paidOut: number | null,
  place: string,
  units: UnitSystem,
): { transaction: string | null } {
  const pull = own.about?.pull;
  if (pull === undefined)
    throw new InputError(
      place,
      "a log of no pull",
      `its pull is expected: rodebench book edit ${book.path} ${own.id} --set pull=ID`,
    );
  if (held.kind === "notKnown")
    throw new InputError(
      place,
      `what was held is not known: ${traceWords(units, (t) => `${(t - log.from).toFixed(1)} s`).held(held.why)}`,
      "marks that tell it are expected",
    );
  const result = {
    kind: held.kind,
    load_N: held.newtons,
    u_N: held.u,
    ...(paidOut === null ? {} : { paidOut_m: paidOut }),
  };
  return { transaction: book.edit("pull", pull.id, { result, loadAt: held.at, ...fieldsOfHow(stated) }) };
}

/** Kinds of channel a reduction uses. */
const TRACE_KINDS = ["load"] as const;
const TRACK_KINDS = ["latitude", "longitude", "speed", "course", "heading", "headingTrue"] as const;

/** What of a log was not read, without the lines themselves. */
function unreadOf({ first: _, ...counts }: TroubleCount): Omit<TroubleCount, "first"> {
  return counts;
}

/** Where the load was carried: the rig as it lay, both ends, the angle, and what to doubt. */
function carriedFields(kind: "heldTo" | "gaveWay", carried: CarriedLoad, deployment: Deployment): object {
  const { anchor, bow, angleToBottom } = carried;
  return {
    kind,
    anchor: { load_N: anchor.value, u_N: anchor.u },
    bow: { load_N: bow.value, u_N: bow.u },
    angleToBottom_deg: angleToBottom.value * DEGREES,
    angleToBottomU_deg: angleToBottom.u * DEGREES,
    rise: { value_m: deployment.rise.value, u_m: deployment.rise.u, from: deployment.rise.from },
    rodeOut: { value_m: deployment.length.value, u_m: deployment.length.u },
    doubts: [...deployment.doubts, ...carried.doubts],
  };
}
