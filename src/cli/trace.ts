import { Command, Option } from "commander";
import {
  type Carried,
  carryHeld,
  giveOf,
  type PlannedStep,
  type ReadAt,
  readCorrections,
  readLogRows,
  reduceTrace,
  type Span,
  tracedToJson,
  traceFromRows,
} from "../pull/index.ts";
import { InputError, parseQuantity, quoted } from "../quantity/index.ts";
import { NoAnswer } from "./exit.ts";
import type { Io } from "./io.ts";
import { choicesFrom, type LogOptions, withLogOptions } from "./log-options.ts";
import { answerJson, placeOf, rigAt, type Shown, shown } from "./options.ts";
import { tracedText } from "./traced-text.ts";

interface Options extends Shown, LogOptions {
  readonly readAt: ReadAt;
  readonly channel?: string;
  readonly part?: string;
  readonly track?: string;
  readonly rig?: string;
  readonly steps?: string;
  readonly slack?: string;
  readonly corrections?: string;
}

export function traceCommand(io: Io): Command {
  const command = new Command("trace")
    .description("the log of one pull reduced: zero, plateaus, peaks, drags, cycles and the held load")
    .argument("<log>", "log of a load cell (CSV in any dialect, NMEA 0183, Signal K); - for standard input")
    .addOption(
      new Option("--read-at <end>", "end of the rode the load cell sat at").choices(["anchor", "bow"]).default("bow"),
    )
    .option("--rig <file>", "rig file: carries the held load to the other end, and takes the rode's give off movement")
    .option("--track <file>", "where the boat was, when the log does not say: GPX, NMEA 0183, Signal K or CSV in UTC")
    .option("--steps <plan>", "protocol, such as 500lbf:30s,1000lbf:30s")
    .option("--slack <spans>", "where the rode was slack, s from the first reading, such as 0..12,300..320")
    .option("--corrections <file>", "changes to the marks (rodebench/corrections@1)")
    .option("--channel <name>", "load channel, when the log has several")
    .option("--part <number>", "part of a log whose clock was started again");
  return shown(withLogOptions(command)).action(async (path: string, options: Options) => {
    const place = placeOf(path);
    const rows = readLogRows(await io.read(path), place, choicesFrom(options), options.loadPath);
    const beside =
      options.track === undefined
        ? undefined
        : { rows: readLogRows(await io.read(options.track), placeOf(options.track)), place: placeOf(options.track) };
    const made = traceFromRows(rows, place, {
      ...(options.channel === undefined ? {} : { channel: options.channel }),
      ...(options.part === undefined ? {} : { part: counted(options.part, "--part") }),
      ...(beside === undefined ? {} : { beside }),
    });
    const rig = options.rig === undefined ? null : await rigAt(options.rig, io);
    const give = rig && giveOf(rig, options.readAt);
    const start = made.trace.time[0] ?? 0;
    const corrections =
      options.corrections === undefined
        ? []
        : readCorrections(await io.read(options.corrections), placeOf(options.corrections));
    const reduction = reduceTrace(made.trace, {
      readAt: options.readAt,
      corrections,
      ...(give ? { give } : {}),
      ...(options.steps === undefined ? {} : { steps: stepsOf(options.steps) }),
      ...(options.slack === undefined ? {} : { slack: spansOf(options.slack, start) }),
    });
    const carried: Carried | null = rig && reduction.held.kind !== "notKnown" ? carryHeld(reduction.held, rig) : null;
    if (carried?.kind === "noEquilibrium")
      throw new NoAnswer(`${placeOf(options.rig!)}: ${carried.why}; ${carried.nearest}`);
    if (options.json)
      answerJson(io, {
        ...tracedToJson(reduction),
        clock: rows.clock,
        channel: made.channel,
        part: made.part,
        parts: made.parts,
        unread: {
          rejected: rows.troubles.rejected,
          unreadable: rows.troubles.unreadable,
          missing: rows.troubles.missing,
          overload: rows.troubles.overload,
        },
        carried: carried && {
          kind: carried.kind,
          anchor: { load_N: carried.anchor.value, u_N: carried.anchor.u },
          bow: { load_N: carried.bow.value, u_N: carried.bow.u },
          angleToBottom_deg: (carried.angleToBottom.value * 180) / Math.PI,
        },
      });
    else io.out(tracedText({ reduction, made, rows, carried, place, units: options.units }));
  });
}

/** `500lbf:30s,1000lbf:30s` */
function stepsOf(text: string): PlannedStep[] {
  return text.split(",").map((step) => {
    const parts = step.split(":");
    if (parts.length !== 2) throw new InputError("--steps", quoted(step), "LOAD:TIME is expected, such as 500lbf:30s");
    const load = parseQuantity(parts[0]!, "force", "--steps");
    const hold = parseQuantity(parts[1]!, "time", "--steps");
    if (!(load > 0)) throw new InputError("--steps", quoted(step), "a load above zero is expected");
    if (!(hold >= 0)) throw new InputError("--steps", quoted(step), "a time not below zero is expected");
    return { load, hold };
  });
}

/** `0..12,300..320`, s from the first reading. */
function spansOf(text: string, start: number): Span[] {
  return text.split(",").map((span) => {
    const [from, to] = span.split("..").map(Number);
    if (from === undefined || to === undefined || !(to > from))
      throw new InputError("--slack", quoted(span), "FROM..TO in seconds is expected, such as 0..12");
    return { from: start + from, to: start + to };
  });
}

function counted(text: string, place: string): number {
  const n = Number(text);
  if (!Number.isInteger(n) || n < 1) throw new InputError(place, quoted(text), "a whole number from 1 is expected");
  return n;
}
