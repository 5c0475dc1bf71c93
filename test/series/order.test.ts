import { readFileSync } from "node:fs";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { orderOf, pullCode, readPullCode, readSeries } from "../../src/series/index.ts";

const TEXT = readFileSync("data/series/creek-trial.yaml", "utf8");
const long = TEXT.replace('to: "11:30"', 'to: "19:00"')
  .replace('to: "10:00"', 'to: "19:00"')
  .replace("repeats: 3", "repeats: 8");
const told = (text: string, seed: number) => orderOf(readSeries(text.replace("seed: 7", `seed: ${seed}`), "x"));

describe("the order of pulls", () => {
  it("is the same for the same seed and another for another", () => {
    expect(told(long, 3)).toEqual(told(long, 3));
    const combos = (seed: number) => told(long, seed).placed.map(({ anchor, angle }) => `${anchor} ${angle}`);
    expect(combos(3)).not.toEqual(combos(4));
  });

  it("has each anchor at each angle once a round, in the hours of its day, and loses none", () => {
    const series = readSeries(long, "x");
    const { placed, withoutHour } = orderOf(series);
    expect(placed.length + withoutHour).toBe(8 * 2 * 2);
    for (let round = 1; round <= placed.at(-1)!.round; round++) {
      const own = placed.filter((one) => one.round === round).map(({ anchor, angle }) => `${anchor} ${angle}`);
      expect(new Set(own).size).toBe(own.length);
      if (round < placed.at(-1)!.round) expect(own.length).toBe(4);
    }
    placed.forEach(({ at, day }, i) => {
      expect(at).toBeGreaterThanOrEqual(day.from);
      expect(at + series.pullTime).toBeLessThanOrEqual(day.to);
      const before = placed[i - 1];
      if (before === undefined || before.day !== day) return;
      const change = before.anchor === placed[i]!.anchor ? 0 : series.changeTime;
      expect(at).toBeCloseTo(before.at + series.pullTime + change, 6);
    });
  });

  it("puts every anchor first about as often, over many seeds", () => {
    let first = 0;
    for (let seed = 0; seed < 400; seed++) if (told(long, seed).placed[0]!.anchor === "Plough A") first++;
    // 200 ± 4 standard deviations of a fair coin.
    expect(Math.abs(first - 200)).toBeLessThan(40);
  });

  it("changes anchors once a round where few changes are asked for, and shuffles all where not", () => {
    const changes = (text: string) => {
      const { placed } = told(text, 5);
      return placed.filter(({ anchor }, i) => i > 0 && anchor !== placed[i - 1]!.anchor).length;
    };
    expect(changes(long.replace("changes: few", "changes: free"))).toBeGreaterThan(changes(long));
  });
});

describe("the code of a pull", () => {
  it("is read back as its number, however it is written", () => {
    fc.assert(
      fc.property(fc.string(), fc.integer({ min: 1, max: 529 }), (series, number) => {
        const code = pullCode(series, number);
        expect(code).toMatch(/^[234679ACDEFHJKLMNPRTVWX]{5}$/);
        expect(readPullCode(series, code)).toEqual({ kind: "read", number });
        expect(readPullCode(series, ` ${code.slice(0, 2).toLowerCase()}-${code.slice(2)}`)).toEqual({
          kind: "read",
          number,
        });
      }),
    );
  });

  it("shows every single wrong sign and every two neighbours swapped", () => {
    const signs = "234679ACDEFHJKLMNPRTVWX";
    for (const number of [1, 2, 24, 77, 529]) {
      const code = pullCode("a series", number);
      for (let i = 0; i < 5; i++) {
        for (const sign of signs) {
          if (sign === code[i]) continue;
          expect(readPullCode("a series", code.slice(0, i) + sign + code.slice(i + 1))).toEqual({ kind: "wrongSign" });
        }
        if (i < 4 && code[i] !== code[i + 1])
          expect(readPullCode("a series", code.slice(0, i) + code[i + 1] + code[i] + code.slice(i + 2))).toEqual({
            kind: "wrongSign",
          });
      }
    }
  });

  it("tells a sign that no code has, with the one code it can be, and what is no code of this series", () => {
    for (const number of [1, 30, 529]) {
      const code = pullCode("a series", number);
      for (let i = 0; i < 5; i++)
        for (const slip of "O0I15S8BGQ")
          expect(readPullCode("a series", (code.slice(0, i) + slip + code.slice(i + 1)).toLowerCase())).toEqual({
            kind: "noSign",
            sign: slip,
            meant: code,
          });
      expect(readPullCode("a series", `OO${code.slice(2)}`)).toEqual({ kind: "noSign", sign: "O", meant: null });
      expect(readPullCode("another series", code)).toEqual({ kind: "otherSeries" });
      expect(readPullCode("a series", code.slice(1))).toEqual({ kind: "length", signs: 4 });
    }
  });
});
