import { describe, expect, it } from "vitest";
import { rng } from "../../src/statistics/index.ts";
import { rodebench } from "../support/command-line.ts";

const table = "data/examples/holding/three-anchors.csv";

/** `compare` on a table given as text, without draws unless told otherwise. */
const compare = (csv: string, ...more: string[]) =>
  rodebench(["compare", "pulls.csv", "--no-sampling", ...more], { "pulls.csv": csv });

describe("pulls judged by different hold rules", () => {
  const head = "anchor,gaveWayBy_N,heldFor_s,heldWithin_m\n";
  const rows = "A,1000,8,1\nA,1100,8,1\nB,1500,30,0.5\nB,1600,,\n";

  it("are said to be, by which and how many by each; by one rule, or where none is told, nothing is said", async () => {
    const { out, err, status } = await compare(head + rows);
    expect([status, err]).toEqual([0, ""]);
    expect(out).toContain(
      "The pulls were judged by different hold rules: 2 kept for 8 s or longer, the anchor moving by less than 1 m meanwhile; 1 kept for 30 s or longer, the anchor moving by less than 0.5 m meanwhile. The longer",
    );
    const told = JSON.parse((await compare(head + rows, "--json")).out);
    expect(told.holdRules).toEqual([
      { heldFor_s: 8, heldWithin_m: 1, pulls: 2 },
      { heldFor_s: 30, heldWithin_m: 0.5, pulls: 1 },
    ]);
    expect(told.remarks).toEqual([]);
    const one = await compare(head + rows.replace("30,0.5", "8,1"));
    expect(one.out).not.toContain("hold rules");
    expect((await compare(`${head}A,1000,,\nB,1500,,\n`)).out).not.toContain("hold rules");
  });
});

describe("a wrong table is one line on standard error, and exit 2", () => {
  it.each([
    ["empty", "", /^pulls\.csv: an empty file; a row of column names is expected\n$/],
    ["a header alone", "anchor,heldTo_N\n", /^pulls\.csv: a header alone; a row a pull is expected below it\n$/],
    [
      "other columns",
      "name,load\nA,5\n",
      /^pulls\.csv: header: "name,load"; the columns anchor and heldTo_N or gaveWayBy_N are expected\n$/,
    ],
    ["no load column", "anchor,mass_kg\nA,5\n", /^pulls\.csv: header: "anchor,mass_kg"; the columns anchor and/],
    [
      "another unit",
      "anchor,heldTo_kN\nA,5\n",
      /^pulls\.csv: header: "heldTo_kN"; heldTo_N is expected, in the unit its name says\n$/,
    ],
    [
      "a misspelt column",
      "anchor,heldto_N,gaveWayBy_N\nA,5,\n",
      /^pulls\.csv: header: "heldto_N"; heldTo_N is expected/,
    ],
    [
      "a column twice",
      "anchor,heldTo_N,anchor\nA,5,B\n",
      /^pulls\.csv: header: anchor twice; each column once is expected\n$/,
    ],
    [
      "loads of the wrong sign alone",
      "anchor,heldTo_N\nA,-5\n",
      /^pulls\.csv: row 2: no row could be read; the first says: heldTo_N: "-5"; a load from 0 to 1e9 newtons is expected\n$/,
    ],
    ["a quote left open", 'anchor,heldTo_N\n"A,5\n', /^pulls\.csv: .*\n$/],
    ["not a table at all", "\u0000\u0001\u0002", /^pulls\.csv: header: .*\n$/],
  ])("%s", async (_, csv, line) => {
    const said = await compare(csv);
    expect(said.out).toBe("");
    expect(said.err).toMatch(line);
    expect(said.err.trimEnd()).not.toContain("\n");
    expect(said.status).toBe(2);
  });

  it("a million rows", async () => {
    const said = await compare(`anchor,heldTo_N\n${"A,5000\n".repeat(1_000_000)}`);
    expect(said.err).toBe("pulls.csv: more than 200000 rows; at most 200000 pulls are expected\n");
    expect(said.status).toBe(2);
  });

  it.each([
    [["--terms", "anchor,anchr"], /^--terms: "anchr"; one of anchor, angle, mass, seabed is expected: anchor\?\n$/],
    [["--random", "boat"], /^--random: "boat"; one of site, day, tester, none is expected/],
    [["--law", "normal"], /normal/],
    [["--chance", "1"], /0\.9/],
    [["--at", "angle 5 kg"], /^--at: "5 kg"/],
    [["--at", "wind 5 kn"], /^--at: "wind 5 kn"; angle, mass or seabed is expected/],
    [["--at", "seabed lava"], /^--at: seabed "lava"; one of "mud", "sand" is expected\n$/],
    [["--seed", "-3"], /^--seed: "-3"; a whole number from 0 is expected\n$/],
    [["--prior", "luck=3"], /^--prior: "luck=3"; one of timesWeight/],
    [["--prior", "scatter=-1"], /^--prior: "scatter=-1"; a number from 0\.001 to 1000/],
    [["--prior", "__proto__=1"], /^--prior: "__proto__=1"; one of timesWeight/],
    [["--load", "15 kg"], /^--load: "15 kg"/],
    [["--series", "x"], /^--series: "x"; a book is expected/],
  ])("%j", async (options, line) => {
    const said = await rodebench(["compare", table, "--no-sampling", ...options]);
    expect(said.err).toMatch(line);
    expect(said.err.trimEnd()).not.toContain("\n");
    expect(said.status).toBe(2);
  });
});

describe("a wrong row is left out with its reason, and the others are answered", () => {
  it.each([
    ["A,-1,", 'heldTo_N: "-1"; a load from 0 to 1e9 newtons is expected'],
    ["A,500,300", 'heldTo_N: "500"; at most gaveWayBy_N, 300, is expected'],
    ["A,,", "heldTo_N: nothing given; a load in heldTo_N or gaveWayBy_N is expected"],
    ["A,0,", "heldTo_N: 0 alone; a load above zero, or one by which it gave way, is expected"],
    ["A,,0", "gaveWayBy_N: 0; a load above zero is expected: the one at which it was dragged along"],
    ["A,1e999,", 'heldTo_N: "1e999"; a load from 0 to 1e9 newtons is expected'],
    ["A,0x10,", 'heldTo_N: "0x10"; a load from 0 to 1e9 newtons is expected'],
    [",500,", "anchor: nothing given; the anchor's name is expected"],
    ["A,500,,7", "row: 4 cells; 3, as many as column names, are expected"],
    ["A\u001b[31m,500,", "anchor: a sign that cannot be seen; a name of signs one can see is expected"],
    ["\u202eA,500,", "anchor: a sign that cannot be seen; a name of signs one can see is expected"],
  ])("%j", async (row, why) => {
    const said = await compare(`anchor,heldTo_N,gaveWayBy_N\nA,400,400\n${row}\nB,600,\n`, "--json");
    expect(said.status).toBe(0);
    const answer = JSON.parse(said.out);
    expect(answer.pulls).toBe(2);
    expect(answer.leftOut).toEqual([{ row: 3, why }]);
  });

  it("names that are words of the language are names", async () => {
    const said = await compare("anchor,heldTo_N,gaveWayBy_N\n__proto__,4,4\nconstructor,5,5\ntoString,6,\n", "--json");
    expect(JSON.parse(said.out).anchors.map(({ anchor }: { anchor: string }) => anchor)).toEqual([
      "__proto__",
      "constructor",
      "toString",
    ]);
  });
});

describe("pulls that hardly say anything get an honest answer", () => {
  const head = "anchor,heldTo_N,gaveWayBy_N,site\n";
  it.each([
    ["one pull in all", "A,500,,s\n", "no anchor gave way"],
    [
      "one that never gave way",
      "A,500,,s\nA,600,,s\nB,300,300,s\nB,350,350,s\n",
      "A never gave way in 2 pulls: they say only that it holds more, to 600 N",
    ],
    [
      "one that never held",
      "A,,200,s\nA,,100,s\nB,300,300,s\nB,350,350,s\n",
      "A never held in 2 pulls: they say only that it holds less than 100 N",
    ],
    ["all the same", "A,500,500,s\nA,500,500,s\nB,500,500,s\nB,500,500,s\n", "every pull gave way at 500 N"],
    [
      "two anchors on two sites of their own",
      "A,500,500,s\nA,600,600,s\nB,300,300,t\nB,350,350,t\n",
      "A, B: pulled only at sites where no other anchor was; what is told is anchor and site together",
    ],
  ])("%s", async (_, rows, sentence) => {
    const said = await compare(head + rows);
    expect(said.status).toBe(0);
    expect(said.out).toContain(sentence);
    expect(said.out).not.toMatch(/NaN|Infinity|undefined/);
    const json = await compare(head + rows, "--json");
    expect(json.out).not.toMatch(/NaN|Infinity/);
  });

  it("with draws too, in place of a refusal: one anchor that never gave way", async () => {
    const said = await rodebench(["compare", "-", "--json", "--law", "lognormal"], {
      "-": `${head}A,900,,s\nA,950,,s\nA,930,,s\nB,200,200,s\nB,420,420,s\nB,310,310,s\n`,
    });
    const answer = JSON.parse(said.out);
    expect(answer.posterior.sound).toBe(true);
    expect(answer.pairs).toHaveLength(1);
    expect(answer.pairs[0].moreInTheMean).toBeGreaterThan(0.9);
    // What was never seen to give way is known from below only: its upper limit is far.
    const [a] = answer.holds;
    expect(a.high_N / a.median_N).toBeGreaterThan(1.5);
  }, 600_000);
});

describe("compare --json", () => {
  it("has the fields other programs rely on", async () => {
    const said = await rodebench([
      "compare",
      table,
      "--json",
      "--no-sampling",
      "--terms",
      "anchor,angle",
      "--random",
      "none",
    ]);
    const answer = JSON.parse(said.out);
    expect(answer.format).toBe("rodebench/compared@1");
    expect(answer.pulls).toBe(24);
    expect(answer.anchors.map(({ anchor }: { anchor: string }) => anchor)).toEqual(["Heron", "Plaice", "Whelk"]);
    expect(Object.keys(answer.anchors[0])).toEqual(
      expect.arrayContaining(["anchor", "pulls", "gaveWay", "heldOn", "between", "neverHeld", "curve"]),
    );
    expect(Object.keys(answer.anchors[2].curve[0])).toEqual(
      expect.arrayContaining(["load_N", "atRisk", "gaveWay", "chance", "se", "low", "high"]),
    );
    expect(Object.keys(answer.logRank)).toEqual(expect.arrayContaining(["chi2", "df", "p", "pPermuted"]));
    expect(answer.fits.map(({ law }: { law: string }) => law)).toEqual(["lognormal", "weibull", "loglogistic"]);
    expect(answer.fits[0].terms.map(({ name }: { name: string }) => name)).toEqual([
      "intercept",
      "anchor:Plaice",
      "anchor:Whelk",
      "anchorAngle_deg",
    ]);
    expect(answer.posterior).toBeNull();
    expect(answer.verdicts[0]).toBe("not sampled: nothing is concluded beyond the pulls themselves");
  });

  it("is the same again with the same seed, and another p by permutation with another", async () => {
    const run = (seed: string) => rodebench(["compare", table, "--json", "--no-sampling", "--seed", seed]);
    const [one, again, other] = [await run("1"), await run("1"), await run("2")];
    expect(again.out).toBe(one.out);
    expect(JSON.parse(other.out).logRank.pPermuted).not.toBe(JSON.parse(one.out).logRank.pPermuted);
  });
});

describe("loads and angles as they were read", () => {
  it("leave the scatter of reading out of what anchors scatter, and take an angle as the load's own", async () => {
    const draw = rng(5);
    const rows = Array.from({ length: 120 }, () => {
      // What holds hardly scatters; what is read does, by three tenths.
      const load = 3000 * Math.exp(0.05 * draw.normal() + 0.3 * draw.normal());
      return { load, angle: 4 + 3 * Math.log(load / 3000) + draw.normal() };
    });
    const run = async (columns: string, cells: (row: (typeof rows)[number]) => string) => {
      const csv = `anchor,heldTo_N,gaveWayBy_N${columns}\n${rows.map((row) => `A,${row.load},${row.load}${cells(row)}\n`).join("")}`;
      const said = await rodebench(["compare", "-", "--json", "--law", "lognormal"], { "-": csv });
      expect(said.status, said.err).toBe(0);
      return JSON.parse(said.out).posterior;
    };
    const scatter = (posterior: { terms: { name: string; mean: number }[] }): number =>
      Math.exp(posterior.terms.find(({ name }) => name === "lnScatter")!.mean);
    const bare = await run("", () => "");
    const read = await run(
      ",uncertainty_N,anchorAngle_deg,anchorAngleRise_deg",
      ({ load, angle }) => `,${0.3 * load},${angle},3`,
    );
    expect(bare).toMatchObject({ loadsWithError: 0, angle: "noTerm" });
    expect(read).toMatchObject({ loadsWithError: 120, angle: "ofTheLoad" });
    expect(scatter(bare)).toBeGreaterThan(0.2);
    expect(scatter(read)).toBeLessThan(0.5 * scatter(bare));
  }, 600_000);

  it.each([
    ["uncertainty_N", "-1", /uncertainty_N: "-1"; an uncertainty from 0/],
    ["anchorAngleRise_deg", "5", /anchorAngleRise_deg: .*anchorAngle_deg beside it is expected/],
    ["anchorAngleHeld_deg", "100", /anchorAngleHeld_deg: "100"; an angle from -90 to 90/],
  ])("%s of %s is refused by name", async (column, cell, line) => {
    const said = await compare(`anchor,heldTo_N,${column}\nA,500,${cell}\n`);
    expect(said.status).toBe(2);
    expect(said.err).toMatch(line);
  });
});

describe("compare on a book", () => {
  it("takes every pull from the book, carried by its own rig, and lists those that say nothing", async () => {
    const { mkdtempSync, rmSync } = await import("node:fs");
    const { tmpdir } = await import("node:os");
    const { join } = await import("node:path");
    const folder = mkdtempSync(join(tmpdir(), "compare-"));
    try {
      const made = await rodebench(["book", "demo", "demo.book"], {}, { cwd: folder });
      expect(made.status, made.both).toBe(0);
      const said = await rodebench(["compare", "demo.book", "--json", "--no-sampling"], {}, { cwd: folder });
      expect(said.status, said.err).toBe(0);
      const answer = JSON.parse(said.out);
      expect(answer.pulls).toBeGreaterThan(3);
      // What holds more is pulled steeper: such an angle is no term of a regression.
      expect(answer.causes).toContain("finding");
      expect(
        answer.fits.flatMap(({ terms }: { terms: { name: string }[] }) => terms.map(({ name }) => name)),
      ).not.toContain("anchorAngle_deg");
      expect(answer.verdicts.join(" ")).toContain("the fits leave it out; what is concluded counts where the load met");
      for (const { why } of answer.leftOut) expect(why.length).toBeGreaterThan(10);
      const wrong = await rodebench(["compare", "demo.book", "--series", "none such"], {}, { cwd: folder });
      expect(wrong.err).toMatch(/^--series: "none such"; one of ".*" is expected\n$/);
    } finally {
      rmSync(folder, { recursive: true });
    }
  }, 600_000);
});
