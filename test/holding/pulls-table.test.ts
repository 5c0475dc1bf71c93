/** Rows of a pulls table, as they are read and as they are refused. */
import { describe, expect, it } from "vitest";
import { MOST_PULLS, readPullsTable } from "../../src/holding/index.ts";

const DEGREE = Math.PI / 180;
const table = (...lines: string[]) =>
  readPullsTable(
    lines.map((line) => line.split(",")),
    "pulls.csv",
  );
const HEADER =
  "anchor,heldTo_N,gaveWayBy_N,mass_kg,anchorAngle_deg,anchorAngleHeld_deg,anchorAngleRise_deg,uncertainty_N,seabed,site,day,ending,tester";

describe("a pulls table", () => {
  it("is read in SI, each cell under its own name", () => {
    const { pulls, rows, leftOut } = table(HEADER, "A,600,1000,12,6,4,3,50,mud,x,2031-05-01,drag,p");
    expect(rows).toEqual([2]);
    expect(leftOut).toEqual([]);
    expect(pulls).toEqual([
      {
        anchor: "A",
        hold: { kind: "between", heldTo: 600, gaveWayBy: 1000 },
        mass: 12,
        anchorAngle: expect.closeTo(6 * DEGREE, 14),
        angleHeld: expect.closeTo(4 * DEGREE, 14),
        angleRise: expect.closeTo(3 * DEGREE, 14),
        loadError: 0.05,
        seabed: "mud",
        site: "x",
        day: "2031-05-01",
        ending: "drag",
        tester: "p",
      },
    ]);
  });

  it.each([
    ["600", "", { kind: "heldTo", newtons: 600 }],
    ["", "600", { kind: "neverHeld", newtons: 600 }],
    ["0", "600", { kind: "neverHeld", newtons: 600 }],
    ["600", "600", { kind: "gaveWay", newtons: 600 }],
    ["600", "601", { kind: "between", heldTo: 600, gaveWayBy: 601 }],
  ] as const)("held to %j and gave way by %j say together", (heldTo, gaveWayBy, hold) => {
    const [pull] = table("anchor,heldTo_N,gaveWayBy_N", `A,${heldTo},${gaveWayBy}`).pulls;
    expect(pull).toEqual({ anchor: "A", hold });
  });

  it("has the hold rule a pull was judged by where both of it are told", () => {
    const { pulls } = table("anchor,heldTo_N,heldFor_s,heldWithin_m", "A,600,30,0.5", "A,700,30,", "A,800,,");
    expect(pulls.map(({ holdRule }) => holdRule)).toEqual([{ heldFor: 30, heldWithin: 0.5 }, undefined, undefined]);
    const { leftOut } = table("anchor,heldTo_N,heldFor_s,heldWithin_m", "A,600,30,0.5", "A,600,0,0.5", "A,600,30,2000");
    expect(leftOut.map(({ why }) => why)).toEqual([
      'heldFor_s: "0"; a time from 0.1 s to a day is expected',
      'heldWithin_m: "2000"; a length from 0.001 to 1000 m is expected',
    ]);
  });

  it("has the angle held only where the pull is known between two loads", () => {
    const [pull] = table("anchor,heldTo_N,anchorAngle_deg,anchorAngleHeld_deg", "A,600,5,4").pulls;
    expect(pull).toEqual({
      anchor: "A",
      hold: { kind: "heldTo", newtons: 600 },
      anchorAngle: expect.closeTo(5 * DEGREE, 14),
    });
  });

  it("leaves out the rows it cannot read, each with its line, and no others; empty lines are no rows", () => {
    const lines = ["A,600,5", "B,x,5", "", "C,700,6,9", "D,800,91", ",900,3", "E,950,"];
    const { pulls, rows, leftOut } = table("anchor,heldTo_N,anchorAngle_deg", ...lines);
    expect(pulls.map(({ anchor }) => anchor)).toEqual(["A", "E"]);
    expect(rows).toEqual([2, 8]);
    expect(leftOut.map(({ row }) => row)).toEqual([3, 5, 6, 7]);
    for (const [k, said] of [
      /heldTo_N.*"x".*0 to 1e9/,
      /4 cells.*3/,
      /anchorAngle_deg.*-90 to 90/,
      /anchor.*name/,
    ].entries())
      expect(leftOut[k]!.why).toMatch(said);
  });

  it.each([
    ["heldTo_N", "", /a load in heldTo_N or gaveWayBy_N/],
    ["heldTo_N", "0", /0 alone/],
    ["heldTo_N", "-1", /0 to 1e9/],
    ["heldTo_N", "1.1e9", /0 to 1e9/],
    ["heldTo_N", "0x10", /0 to 1e9/],
    ["gaveWayBy_N", "0", /above zero/],
    ["mass_kg", "0.0009", /1e-3 to 1e6/],
    ["mass_kg", "1000001", /1e-3 to 1e6/],
    ["anchorAngle_deg", "-90.1", /-90 to 90/],
    ["anchorAngleRise_deg", "-1", /0 to 1000/],
    ["anchorAngleRise_deg", "1001", /0 to 1000/],
    ["anchorAngleRise_deg", "3", /anchorAngle_deg beside it/],
    ["anchorAngleHeld_deg", "3", /anchorAngle_deg beside it/],
    ["uncertainty_N", "-0.1", /0 to 1e9/],
    ["site", "x".repeat(81), /at most 80/],
    ["site", "x\u202Ey", /cannot be seen/],
  ])("refuses %s %j, naming it", (column, cell, expected) => {
    const cells = HEADER.split(",").map((name) =>
      name === column ? cell : name === "anchor" ? "A" : name === "heldTo_N" && column !== "gaveWayBy_N" ? "600" : "",
    );
    expect(() => table(HEADER, cells.join(","))).toThrow(expected);
    expect(() => table(HEADER, cells.join(","))).toThrow(column);
  });

  it.each([
    ["mass_kg", "0.001"],
    ["mass_kg", "1000000"],
    ["uncertainty_N", "0"],
    ["site", "x".repeat(80)],
    ["anchorAngle_deg", "90"],
    ["anchorAngle_deg", "-90"],
  ])("takes %s at its edge, %s", (column, cell) => {
    expect(table(`anchor,heldTo_N,${column}`, `A,600,${cell}`).pulls).toHaveLength(1);
  });

  it("refuses a load held above the one it gave way by", () => {
    expect(() => table("anchor,heldTo_N,gaveWayBy_N", "A,601,600")).toThrow(/at most gaveWayBy_N, 600/);
  });

  it("refuses headers that name a column twice, nearly, or none that tells a load", () => {
    expect(() => table("anchor,heldTo_N,heldTo_N", "A,1,1")).toThrow(/heldTo_N twice/);
    expect(() => table("anchor,heldTo_kN", "A,1")).toThrow(/heldTo_N is expected/);
    expect(() => table("anchor,heldTo_N,mas_kg", "A,1,1")).toThrow(/mass_kg is expected/);
    expect(() => table("anchor,mass_kg", "A,1")).toThrow(/anchor and heldTo_N or gaveWayBy_N/);
    expect(() => table("heldTo_N", "1")).toThrow(/anchor and heldTo_N or gaveWayBy_N/);
    // The mark of a file's coding and blanks belong to no name; a column of another kind is passed over.
    expect(table("\uFEFFanchor, gaveWayBy_N ,remark", "A,5,fine").pulls).toHaveLength(1);
  });

  it("refuses nothing, a header alone and more rows than any series has", () => {
    expect(() => readPullsTable([], "p")).toThrow(/an empty file/);
    expect(() => table("anchor,heldTo_N")).toThrow(/a header alone/);
    function* endless(of: number): Iterable<readonly string[]> {
      yield ["anchor", "heldTo_N"];
      for (let i = 0; i < of; i++) yield ["A", "5"];
    }
    expect(readPullsTable(endless(MOST_PULLS), "p").pulls).toHaveLength(200_000);
    expect(() => readPullsTable(endless(MOST_PULLS + 1), "p")).toThrow(/more than 200000 rows/);
  });
});
