/** What of a log was left out, read otherwise or taken for granted, as sentences. */
import type { LoadSeen, TroubleCount } from "../log/index.ts";
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
export function endedWords(ended: { readonly line: number; readonly why: string } | null): readonly string[] {
  return ended === null ? [] : [`ended at line ${ended.line}: ${ended.why}`];
}
