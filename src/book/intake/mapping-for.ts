import type { LogChoices, LogGuess } from "../../pull/index.ts";
import { InputError } from "../../quantity/index.ts";
import { choicesOf, type LogMapping, MAPPING_FORMAT } from "./log-mapping.ts";

/** The mapping a guess and what was told make; null while a question stands open. */
export function mappingFor(
  guess: LogGuess,
  path: string,
  told: LogChoices,
  loadPath: string | undefined,
): LogMapping | null {
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
      ...(told.zone === undefined && plan.time.zone === 0 ? {} : { zone: plan.time.zone }),
      ...(plan.time.format === "count" ? { rate: plan.time.rate } : {}),
    };
  }
  if (guess.kind === "nmea") {
    if (guess.times === null)
      throw new InputError(
        path,
        "no sentence carries a time",
        "RMC, GGA, GLL or ZDA sentences among the others, or a stamp before each, are expected",
      );
    const start = told.start;
    const clock = guess.times === "clock" && start !== undefined ? "utc" : guess.clock;
    return {
      format,
      kind: "nmea",
      signature: "NMEA 0183",
      clock,
      times: guess.times,
      ...(start === undefined ? {} : { start }),
    };
  }
  if (guess.kind === "signalk") {
    if (!guess.timed) throw new InputError(path, "no update states its time", "deltas with timestamps are expected");
    return {
      format,
      kind: "signalk",
      signature: "Signal K",
      clock: "utc",
      ...(loadPath === undefined ? {} : { loadPath }),
    };
  }
  return null;
}
