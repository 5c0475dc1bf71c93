import type { LogChoices, LogGuess } from "../../log/index.ts";
import { InputError } from "../../quantity/index.ts";
import { choicesOf, type LogMapping, MAPPING_FORMAT } from "./log-mapping.ts";

/** The mapping a guess and what was told make; null while a question stands open. */
export function mappingFor(guess: LogGuess, path: string, told: LogChoices): LogMapping | null {
  const format = MAPPING_FORMAT;
  if (guess.kind === "table") {
    if (guess.plan === null) return null;
    const { plan } = guess;
    return {
      format,
      kind: "table",
      signature: guess.signature,
      clock: plan.time.clock,
      plan,
      columns: choicesOf(guess),
      ...(guess.remarks.length === 0 ? {} : { remarks: guess.remarks }),
      ...(told.zone === undefined && plan.time.zone === 0 ? {} : { zone: plan.time.zone }),
      ...(plan.time.format === "count" ? { rate: plan.time.rate } : {}),
      ...(told.loads === undefined ? {} : { loads: told.loads }),
    };
  }
  if (guess.kind === "nmea") {
    if (guess.times === null)
      throw new InputError(
        path,
        "no sentence carries a time",
        "RMC, GGA, GLL or ZDA sentences among the others, or a stamp before each, are expected",
      );
    if (guess.plan === null) return null;
    const start = told.start;
    const clock = guess.times === "clock" && start !== undefined ? "utc" : guess.clock;
    return {
      format,
      kind: "nmea",
      signature: "NMEA 0183",
      clock,
      times: guess.times,
      messages: guess.plan,
      ...(guess.remarks.length === 0 ? {} : { remarks: guess.remarks }),
      ...(start === undefined ? {} : { start }),
    };
  }
  if (guess.kind === "signalk") {
    if (!guess.timed) throw new InputError(path, "no update states its time", "deltas with timestamps are expected");
    if (guess.plan === null) return null;
    return {
      format,
      kind: "signalk",
      signature: "Signal K",
      clock: "utc",
      messages: guess.plan,
      ...(guess.remarks.length === 0 ? {} : { remarks: guess.remarks }),
    };
  }
  return null;
}
