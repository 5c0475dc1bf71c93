import { describe, expect, it } from "vitest";
import { NO_TROUBLES } from "../../src/log/index.ts";
import { endedWords, leftOutWords, loadWarnings } from "../../src/words/index.ts";

const force = (newtons: number): string => `${newtons} N`;

describe("what is said of a log", () => {
  it("counts each sort of what was left out in its own words, one and many", () => {
    expect(leftOutWords(NO_TROUBLES)).toEqual([]);
    expect(leftOutWords({ ...NO_TROUBLES, rejected: 1, overload: 2, standIns: 1, others: 3 })).toEqual([
      "1 line not read",
      "2 cells past their range",
      "1 number that stands for no reading",
      "3 readings of other sources left out",
    ]);
    expect(leftOutWords({ ...NO_TROUBLES, unreadable: 2, missing: 1, empty: 2, repeatedRows: 1, comments: 2 })).toEqual(
      [
        "2 readings left out",
        "1 cell without a reading",
        "2 rows without a reading",
        "1 repeated row",
        "2 lines of remarks",
      ],
    );
    expect(leftOutWords({ ...NO_TROUBLES, headersAgain: 2, otherUnits: 1 })).toEqual([
      "2 headers met again",
      "1 header with another unit",
    ]);
  });

  it("warns of a cell past its range, a jump and a top that stands, with load, line and channel", () => {
    const seen = { channel: "Load", count: 3, line: 17, newtons: 5000 };
    expect(loadWarnings([], NO_TROUBLES, force)).toEqual([]);
    expect(loadWarnings([], { ...NO_TROUBLES, overload: 1 }, force)).toEqual([
      "the cell was past its range: the highest load is not known",
    ]);
    const [jumps] = loadWarnings([{ ...seen, kind: "jumps" }], NO_TROUBLES, force);
    expect(jumps).toMatch(/^Load jumps .* at 3 places, first in line 17 to 5000 N/);
    const [top] = loadWarnings([{ ...seen, kind: "cutOff" }], NO_TROUBLES, force);
    expect(top).toMatch(/^Load stands at its highest, 5000 N, for 3 readings on end from line 17/);
  });

  it("says where reading ended, and nothing where it came to the end", () => {
    expect(endedWords(null)).toEqual([]);
    expect(endedWords({ line: 8, why: { kind: "timesAnew" } })).toEqual([
      "ended at line 8: another table begins: its times start anew below a line of words; import it as a file of its own",
    ]);
  });
});
