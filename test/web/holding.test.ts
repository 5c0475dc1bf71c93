import { describe, expect, it } from "vitest";
import { type Pull, USUAL_PRIORS } from "../../src/holding/index.ts";
import { holdingCodec } from "../../src/web/holding/address.ts";
import { readBeside, withBeside } from "../../src/web/holding/beside.ts";
import { BESIDE, type BookPulls, bookPulls, chosenPulls, versionOf } from "../../src/web/holding/book-pulls.ts";
import { type CurvesAsked, holdingCurves } from "../../src/web/holding/curves.ts";
import { changedSince } from "../../src/web/holding/kept.ts";
import { leftOutByHand } from "../../src/web/holding/left-out.ts";
import { usualHolding } from "../../src/web/holding/state.ts";
import { holdingFigures } from "../../src/web/holding/work.ts";

const pull = (anchor: string, more: Partial<Pull> = {}): Pull => ({
  anchor,
  hold: { kind: "heldTo", newtons: 4000 },
  ...more,
});

const book: BookPulls = {
  pulls: [
    pull("A", { seabed: "mud", day: "2031-05-01", site: "x" }),
    pull("B", { seabed: "sand", day: "2031-05-02", site: "x" }),
    pull("A", { seabed: "sand", day: "2031-05-03", site: "y" }),
    pull("C"),
  ],
  ids: ["1", "2", "3", "4"],
  series: ["s", "s", "t", ""],
  versions: ["a", "b", "c", "d"],
  leftOut: [],
  remarks: [],
};

describe("the pulls looked at", () => {
  it.each([
    [{}, [0, 1, 2, 3]],
    [{ anchors: ["A"] }, [0, 2]],
    [{ anchors: ["nobody"] }, []],
    [{ series: "s" }, [0, 1]],
    [{ seabed: "sand" }, [1, 2]],
    [{ site: "y" }, [2]],
    [{ from: "2031-05-02" }, [1, 2]],
    [{ to: "2031-05-02" }, [0, 1]],
    [{ from: "2031-05-02", to: "2031-05-02", seabed: "sand" }, [1]],
  ])("%j", (change, expected) => {
    expect(chosenPulls(book, { ...usualHolding, ...change }, new Set())).toEqual(expected);
  });

  it("are without those left out by hand", () => {
    expect(chosenPulls(book, usualHolding, new Set(["2"]))).toEqual([0, 2, 3]);
  });
});

describe("pulls of another tester beside the book's", () => {
  const csv = "anchor,heldTo_N,gaveWayBy_N,tester\r\nA,3000,3000,Otter\r\nA,2500,,\r\n";

  it("are read from a package's table, and make each source a tester", () => {
    const beside = readBeside("theirs.csv", csv);
    expect(beside.pulls.map(({ tester }) => tester)).toEqual(["Otter", "theirs.csv"]);
    const both = withBeside(book, [beside]);
    expect(both.pulls).toHaveLength(6);
    expect(both.pulls.slice(0, 4).map(({ tester }) => tester)).toEqual(Array(4).fill("this book"));
    expect(new Set(both.ids).size).toBe(6);
    expect(both.series.slice(4)).toEqual([BESIDE, BESIDE]);
    expect(withBeside(book, [])).toBe(book);
    // A series is chosen of the book; what lies beside it stays, and is chosen by its anchor like any.
    expect(chosenPulls(both, { ...usualHolding, series: "s" }, new Set())).toEqual([0, 1, 4, 5]);
    expect(chosenPulls(both, { ...usualHolding, anchors: ["B"] }, new Set())).toEqual([1]);
  });

  it("are refused by name where the file is no table of pulls", () => {
    expect(() => readBeside("notes.csv", "a,b\r\n1,2\r\n")).toThrow(/^notes\.csv/);
  });
});

describe("the address of Holding", () => {
  it("brings back what it was written from", () => {
    const state = {
      ...usualHolding,
      anchors: ["Scoop, 15 kg", 'a "quoted" ~ name'],
      from: "2031-05-01",
      angle: 0.1,
      mass: 15,
      chance: 0.95,
      load: 3000,
      priors: { ...USUAL_PRIORS, anchors: 0.5, angle: { mean: -0.05, sd: 0.05 } },
      seed: 7,
    };
    const read = holdingCodec.read(holdingCodec.write(state));
    expect(read.kind).toBe("read");
    if (read.kind === "read") expect(read.state).toEqual({ ...state, angle: expect.closeTo(0.1, 8) });
  });

  it.each([
    { chance: "2" },
    { from: "yesterday" },
    { anchors: "{}" },
    { angle: "steep" },
    { mass: "-1" },
    { seed: "x" },
    { load: "0" },
    { "prior.scatter": "-1" },
    { "prior.angleMean": "steep" },
  ])("that has no meaning is refused: %j", (fields) => {
    expect(holdingCodec.read(fields).kind).toBe("refused");
  });

  it("without fields of the place is none", () => {
    expect(holdingCodec.read({ rode: "x" }).kind).toBe("none");
  });
});

it("a note that begins so leaves its pull out, until the note is put aside", () => {
  const text = "Left out of comparing anchors: the rope slipped";
  expect(
    leftOutByHand([
      { id: "n", hidden: false, about: "1", text, at: null },
      { id: "m", hidden: true, about: "2", text, at: null },
      { id: "k", hidden: false, about: "3", text: "a remark", at: null },
    ]),
  ).toEqual([{ pull: "1", note: "n", why: "the rope slipped" }]);
});

it("a kept conclusion tells how many of its pulls are another or gone", () => {
  const kept = {
    id: "c",
    at: "2031-05-03T00:00:00Z",
    program: "0",
    seed: 1,
    question: usualHolding,
    answer: { sentences: [], concluded: null },
    pulls: [
      ["1", "a"],
      ["2", "other"],
      ["9", "z"],
    ] as const,
  };
  expect(changedSince(kept, book)).toBe(2);
  expect(versionOf(pull("A"))).not.toBe(versionOf(pull("A", { mass: 15 })));
  expect(versionOf(pull("A"))).toBe(versionOf(pull("A")));
});

it("an empty book has no pulls, and says nothing wrong", () => {
  const none = bookPulls({ pull: [], day: [], site: [], seabed: [], anchor: [], rigVersion: [], series: [] });
  expect(none).toEqual({ pulls: [], ids: [], series: [], versions: [], leftOut: [], remarks: [] });
});

describe("the figures of the pulls", () => {
  const pulls: Pull[] = [
    pull("<b>A</b>", { hold: { kind: "gaveWay", newtons: 3000 } }),
    pull("<b>A</b>"),
    pull("B", { hold: { kind: "between", heldTo: 1000, gaveWayBy: 1500 } }),
    pull("B", { hold: { kind: "neverHeld", newtons: 700 } }),
  ];
  it("show a mark for each, escape names, and can be read off", () => {
    const { pulls: every, curves } = holdingFigures(pulls, "metric", 600);
    const { svg } = every;
    expect(svg).toContain("&lt;b&gt;A&lt;/b&gt; (2)");
    expect(svg).not.toMatch(/NaN|Infinity|<b>/);
    expect(svg.match(/l4 4l-4 4l-4-4z/g)).toHaveLength(1);
    expect(curves?.svg).not.toMatch(/NaN|Infinity/);
    const notes = every.plots.map(({ series }) => series.flatMap((one) => ("notes" in one ? one.notes : [])));
    expect(notes[0]).toContain("gave way at 3 kN");
    expect(notes[1]).toEqual(["never held 0.7 kN", "held 1 kN, had given way by 1.5 kN"]);
  });

  it("are there for one pull, and for pulls none of which gave way", () => {
    expect(holdingFigures([pull("A")], "metric", 390).pulls.svg).toContain("A (1)");
    expect(holdingFigures([pull("A"), pull("B")], "metric", 390).sentences).toContain(
      "no anchor gave way: only lower limits can be told, and no difference between anchors",
    );
  });
});

describe("the curves of what was concluded", () => {
  const asked: CurvesAsked = {
    angleCurves: ["<A>", "B"].map((anchor, k) => ({
      anchor,
      points: [0, 0.1, 0.2].map((angle) => ({
        angle,
        middle: 3000 * (k + 1) * (1 - angle),
        low: 2000 * (1 - angle),
        high: 9000,
      })),
    })),
    angles: [0.05, 0.2],
    inWind: ["<A>", "B"].map((anchor) => ({
      anchor,
      points: [
        { kind: "noLoad", wind: 2 },
        ...[5, 10, 15].map((wind) => ({
          kind: "chance" as const,
          wind,
          peak: { value: 100 * wind, u: 5 * wind, at: "bow" as const, from: "measuredPeaks" as const },
          anchorLoad: 90 * wind,
          anchorAngle: { value: 0.01 * wind, u: 0.01 },
          beyondAngles: false,
          chance: 1 - wind / 20,
          low: 0.9 - wind / 20,
          high: 1,
          shares: { windLoad: 0.2, angle: 0.3, holding: 0.5 },
        })),
      ],
    })),
    anchor: "B",
    units: "metric",
    width: 600,
  };

  it("are a line an anchor, with the band of the one asked about, names escaped", () => {
    const { angle, wind } = holdingCurves(asked);
    for (const svg of [angle?.svg, wind?.svg]) {
      expect(svg).toContain("&lt;A&gt;");
      expect(svg).not.toMatch(/NaN|Infinity|<A>/);
      expect(svg!.match(/fill-opacity/g)).toHaveLength(1);
    }
    expect(wind?.svg).toMatch(/95 % band of B/);
  });

  it("are none where the angle is no term, or no wind has a load", () => {
    expect(holdingCurves({ ...asked, angleCurves: [] }).angle).toBeNull();
    const inWind = [{ anchor: "B", points: [{ kind: "noLoad" as const, wind: 5 }] }];
    expect(holdingCurves({ ...asked, inWind }).wind).toBeNull();
  });
});
