import { describe, expect, test } from "vitest";
import { headerIn } from "../../src/log/header-again.ts";
import { guessed } from "./read-table.ts";

const text = `Time (s),Load (kN),Angle (deg)\n${Array.from({ length: 12 }, (_, i) => `${i},${i}.5,${2 * i}`).join("\n")}\n`;
const plan = guessed(new TextEncoder().encode(text)).plan!;

describe("a line of words among the rows", () => {
  test("is the header written again", () =>
    expect(headerIn("Time (s),Load (kN),Angle (deg)", plan)).toEqual({ kind: "same" }));
  test("is the header in other units, whose sizes it tells", () => {
    // 1 lbf = 4.4482216152605 N by definition (NIST SP 811); a degree is π/180.
    const found = headerIn("Time (s),Load (lbf),Angle (rad)", plan);
    expect(found?.kind === "units" && found.scales).toEqual([4.4482216152605, 1]);
  });
  test("is of another table where it names what is read by other names", () =>
    expect(headerIn("Date,Wind speed (kn),Depth (m)", plan)).toMatchObject({ kind: "other" }));
  test("is a remark where its words name nothing that is read", () =>
    expect(headerIn("anchor,gone,home", plan)).toEqual({ kind: "words" }));
});

test.each([
  ["one word", "restarted"],
  ["a row whose cells are numbers", "13,13.5,26"],
  ["a row with a word in it", "13,OL,26"],
  ["a header with a number among its titles", "Time (s),12,Angle (deg)"],
  ["nothing", ""],
])("%s is no header", (_, line) => expect(headerIn(line, plan)).toBeNull());
