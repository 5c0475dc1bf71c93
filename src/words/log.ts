/** What of a log was left out, read otherwise or taken for granted, as sentences. */
import type { EndCause, Ended, LoadSeen, TroubleCount } from "../log/index.ts";
import { countText } from "./counts.ts";

/** Counts of what was left out, such as "2 lines not read"; empty where nothing was. */
export function leftOutWords(troubles: TroubleCount): readonly string[] {
  const said = [
    [troubles.rejected, "line not read", "lines not read"],
    [troubles.unreadable, "reading left out", "readings left out"],
    [troubles.missing, "cell without a reading", "cells without a reading"],
    [troubles.overload, "cell past its range", "cells past their range"],
    [troubles.standIns, "number that stands for no reading", "numbers that stand for no reading"],
    [troubles.others, "reading of another source left out", "readings of other sources left out"],
    [troubles.empty, "row without a reading", "rows without a reading"],
    [troubles.repeatedRows, "repeated row", "repeated rows"],
    [troubles.headersAgain, "header met again", "headers met again"],
    [troubles.otherUnits, "header with another unit", "headers with another unit"],
    [troubles.comments, "line of remarks", "lines of remarks"],
  ] as const;
  return said.filter(([n]) => n > 0).map(([n, one, many]) => countText(n, one, many));
}

/** What bears on the loads: sentences, with loads by the writer given. */
export function loadWarnings(
  seen: readonly LoadSeen[],
  troubles: TroubleCount,
  force: (newtons: number) => string,
): readonly string[] {
  const words = seen.map(({ kind, channel, count, line, newtons }) =>
    kind === "jumps"
      ? `${channel} jumps away and back within five readings at ${countText(count, "place", "places")}, first in line ${line} to ${force(newtons)}: a snatch, or a glitch of the cell; kept`
      : `${channel} stands at its highest, ${force(newtons)}, for ${countText(count, "reading", "readings")} on end from line ${line}: perhaps the end of the cell's range, and the load went higher`,
  );
  if (troubles.overload > 0) words.push("the cell was past its range: the highest load is not known");
  return words;
}

/** Where and why reading ended early. */
export function endedWords(ended: Ended | null): readonly string[] {
  return ended === null ? [] : [`ended at line ${ended.line}: ${endCauseWords(ended.why)}`];
}

/** The same as fields, the cause in words. */
export function wordedEnd(ended: Ended | null): { readonly line: number; readonly why: string } | null {
  return ended === null ? null : { line: ended.line, why: endCauseWords(ended.why) };
}

/** Why reading ended early. */
export function endCauseWords(why: EndCause): string {
  switch (why.kind) {
    case "firstMark":
      return `${JSON.stringify(why.cell)} is the first number with a mark: --decimal point or --decimal comma says what it marks`;
    case "timesAnew":
      return "another table begins: its times start anew below a line of words; import it as a file of its own";
    case "otherHeader":
      return `another header, "${why.header}": what follows is another table; import it as a file of its own`;
    case "brokenOff":
      return `the document is cut off or broken there (${why.met}); the points before are read`;
  }
}
