/** What the reader of a table makes of its rows, one oddity at a time: rows kept, what is counted, the line that is told. */
import { describe, expect, test } from "vitest";
import { TableReader } from "../../src/log/table.ts";
import { guessed, readAll } from "./read-table.ts";

const bytes = (text: string) => new TextEncoder().encode(text);
const none = Number.NaN;
const HEAD = Array.from({ length: 8 }, (_, i) => `${i}.5,${i + 1},x`).join("\n");
/** A table of eight plain rows on lines 2 to 9, then these. */
function read(more: string, header = "Time (s),Load (kN),Note", head = HEAD, told = {}) {
  const plain = guessed(bytes(`${header}\n${head}\n`), told).plan!;
  const whole = readAll(bytes(`${header}\n${head}\n${more}`), plain);
  const rows = head.split("\n").length;
  return {
    plan: plain,
    times: whole.times.slice(rows),
    values: whole.values.map((column) => column.slice(rows)),
    troubles: whole.troubles,
    lines: whole.troubles.first.map(({ line }) => line),
    stopped: whole.reader.stopped,
    marks: whole.marks,
    reader: whole.reader,
  };
}

describe("rows of a table", () => {
  test("are told by the line they begin on, whatever their quotes hold", () => {
    const { times, lines, troubles } = read('10.5,11,"two\nlines\r\nand three"\nbad,12,x\n11.5,12,x\n');
    expect(times).toEqual([10.5, 11.5]);
    // Lines 10 to 12 are one row.
    expect(lines).toEqual([13]);
    expect(troubles).toMatchObject({ rejected: 1 });
  });
  test("a quote that never closes costs its own line, not what follows", () => {
    const { times, lines } = read('10.5,11,"open\n11.5,12,x\n12.5,13,x\n');
    expect(times).toEqual([11.5, 12.5]);
    expect(lines).toEqual([10]);
  });
  test("with cells too many, no time, or a time beyond reason are none", () => {
    const { times, troubles, lines } = read("10.5,11,x,more\n11.5,12,x,\nsoon,13,x\n1e14,13,x\n12.5,13,x\n,14,x\n");
    expect(times).toEqual([11.5, 12.5]);
    expect(troubles.rejected).toBe(4);
    expect(lines).toEqual([10, 12, 13, 15]);
  });
  test("that are blank or hold a time alone are passed over", () => {
    const { times, troubles } = read("\n\n10.5,,x\n11.5,,\n12.5,13,x\n");
    expect(times).toEqual([12.5]);
    expect(troubles).toMatchObject({ rejected: 0, empty: 2 });
  });
  test("that are longer than any are passed over", () => {
    const { times, troubles } = read(`10.5,11,${"y".repeat(70_000)}\n11.5,12,x\n`);
    expect(times).toEqual([10.5, 11.5]);
    expect(troubles.rejected).toBe(0);
    const { plan } = read("");
    const reader = new TableReader(plan);
    const long = bytes(`10.5,11,${"y".repeat(70_000)}`);
    expect(reader.consume(long, 0, long.length, false)).toBe(long.length);
    expect(reader.troubles.rejected).toBe(1);
    const rest = bytes("yy\n11.5,12,x\n");
    reader.consume(rest, 0, rest.length, true);
    expect([...reader.take().time]).toEqual([11.5]);
  });
});

describe("cells of a load", () => {
  test("that are words for none, an overload or no reading are counted each by itself", () => {
    const { values, troubles, lines } = read(
      "10.5,n/a,x\n11.5,OL,x\n12.5,slack,x\n13.5,12 lbf,x\n14.5, 13 ,x\n15.5,14 furlongs,x\n",
    );
    expect(values[0]!).toEqual([expect.closeTo(12 * 4.4482216152605, 9), 13_000]);
    expect(troubles).toMatchObject({ missing: 1, overload: 1, rejected: 2, empty: 2, unreadable: 0 });
    expect(lines).toEqual([12, 15]);
  });
  test("beside a reading leave the row; what cannot be read is told", () => {
    const { times, values, troubles, lines } = read(
      "10.5,slack,7\n11.5,12,n/a\n12.5,OL,9\n",
      "Time (s),Load (kN),Angle (deg)",
      HEAD.replaceAll("x", "1"),
    );
    expect(times).toEqual([10.5, 11.5, 12.5]);
    expect(values[0]).toEqual([none, 12_000, none]);
    expect(values[1]).toEqual([expect.closeTo((7 * Math.PI) / 180, 12), none, expect.closeTo((9 * Math.PI) / 180, 12)]);
    expect(troubles).toMatchObject({ rejected: 0, unreadable: 1, missing: 1, overload: 1 });
    expect(lines).toEqual([10]);
  });
  test("that stand for none, or are past any meaning, are none", () => {
    const { values, troubles } = read(
      "10.5,9999,7\n11.5,2e12,8\n12.5,11,9\n",
      "Time (s),Load (N),Angle (deg)",
      HEAD.replaceAll("x", "1"),
    );
    expect(values[0]).toEqual([none, none, 11]);
    expect(troubles.standIns).toBe(1);
    expect(troubles.unreadable).toBe(1);
  });
  test("have the unit that their row states", () => {
    const head = Array.from({ length: 8 }, (_, i) => `${i}.5,${i + 1},kN`).join("\n");
    const { values, troubles } = read(
      "10.5,2,kN\n11.5,2,daN\n12.5,2,?\n13.5,2,\n14.5,2 lbf,kN\n15.5,3,kN\n",
      "Time (s),Load,Unit",
      head,
    );
    expect(values[0]).toEqual([2000, 20, expect.closeTo(2 * 4.4482216152605, 9), 3000]);
    expect(troubles.rejected).toBe(2);
  });
  test("are added up where several are one load; a row that lacks one has none", () => {
    const head = Array.from({ length: 8 }, (_, i) => `${i}.5,${i + 1},${2 * i + 1},1`).join("\n");
    const header = "Time (s),Front (kN),Rear (daN),Angle (deg)";
    const { values, times } = read("10.5,2,3,4\n11.5,2,,5\n12.5,,3,6\n13.5,2,,\n14.5,,3,\n", header, head, {
      loads: "sum",
    });
    expect(values[0]).toEqual([2030, none, none]);
    expect(times).toEqual([10.5, 11.5, 12.5]);
  });
});

describe("places in a table", () => {
  const head = Array.from({ length: 8 }, (_, i) => `${i}.5,50.${i},N,004.${i},W`).join("\n");
  test("have their hemispheres beside them, and nowhere is none", () => {
    const { values, troubles, times } = read(
      "10.5,50.5,S,4.5,E\n11.5,0,N,0,E\n12.5,n/a,N,4.5,W\n13.5,91,N,4.5,W\n14.5,0,N,3,W\n",
      "Time (s),Lat,NS,Lon,EW",
      head,
    );
    expect(times).toEqual([10.5, 12.5, 13.5, 14.5]);
    expect(values).toEqual([
      [-50.5, none, none, 0],
      [4.5, -4.5, -4.5, -3],
    ]);
    expect(troubles).toMatchObject({ standIns: 1, unreadable: 1 });
  });
});

describe("times of rows", () => {
  test("that repeat with the same readings are one row; with others they are told", () => {
    const { times, troubles, marks } = read("10.5,11,x\n10.5,11,x\n10.5,12,x\n11.5,12,x\n");
    expect(times).toEqual([10.5, 10.5, 11.5]);
    expect(troubles.repeatedRows).toBe(1);
    expect(marks.filter(({ kind }) => kind === "shared")).toMatchObject([{ row: 9, line: 12 }]);
  });
  test("that run back behind a header of another table end it there", () => {
    const { times, stopped } = read("8.5,11,x\nkedge,warp,bower\n0.5,3,x\n1.5,4,x\n");
    expect(times).toEqual([8.5]);
    expect(stopped).toEqual({ line: 11, why: { kind: "timesAnew" } });
    const on = read("8.5,11,x\nkedge,warp,bower\n9.5,3,x\n0.5,4,x\n");
    expect([on.stopped, on.times]).toEqual([null, [8.5, 9.5, 0.5]]);
    const other = read("8.5,11,x\nDate,Wind speed (kn),Depth (m)\n9.5,3,x\n");
    expect(other.stopped).toMatchObject({ line: 11, why: { kind: "otherHeader" } });
    expect(other.times).toEqual([8.5]);
  });
  test("go on behind the same header, in another unit where it states one", () => {
    const same = read("8.5,11,x\nTime (s),Load (kN),Note\n9.5,3,x\n");
    expect([same.values[0], same.troubles.headersAgain]).toEqual([[11_000, 3000], 1]);
    const other = read("8.5,11,x\nTime (s),Load (daN),Note\n9.5,3,x\n");
    expect([other.values[0], other.troubles.otherUnits, other.lines]).toEqual([[11_000, 30], 1, [11]]);
  });
});

test("a decimal mark that no number has shown is asked about at the first that leaves it open", () => {
  const head = Array.from({ length: 8 }, (_, i) => `${i};${i + 1};x`).join("\n");
  const header = "Time (s);Load (N);Note";
  const of = (more: string) => read(more, header, head, {});
  const { plan } = of("");
  expect(plan.marksUnseen).toBe(true);
  expect(of("10;11.5;x\n11;1.234;x\n")).toMatchObject({ values: [[11.5, 1.234]], stopped: null });
  expect(of("10;11;x\n11;1.234;x\n12;3;x\n")).toMatchObject({
    values: [[11]],
    stopped: { line: 11, why: { kind: "firstMark", cell: "1.234" } },
  });
  expect(of("10;11,5;x\n")).toMatchObject({ stopped: { line: 10, why: { kind: "firstMark", cell: "11,5" } } });
});

test("goes on from its state as if it had never stopped", () => {
  const more = Array.from({ length: 30 }, (_, i) =>
    i % 7 === 3 ? `${10 + i}.5,OL,x` : i % 11 === 5 ? "bad row" : `${10 + i}.5,${i % 4 === 0 ? 9999 : i},x`,
  ).join("\n");
  const { plan } = read("");
  const data = bytes(`${HEAD}\n${more}\n`);
  const whole = new TableReader(plan);
  whole.consume(data, 0, data.length, true);
  const all = whole.take();
  for (const cut of [50, 133, 200, 301]) {
    const first = new TableReader(plan);
    const at = first.consume(data, 0, cut, false);
    const head = first.take();
    const second = new TableReader(plan, 4096, JSON.parse(JSON.stringify(first.state())));
    second.consume(data, at, data.length, true);
    const tail = second.take();
    expect([...head.time, ...tail.time]).toEqual([...all.time]);
    expect([...head.values[0]!, ...tail.values[0]!]).toEqual([...all.values[0]!]);
    expect(second.state()).toEqual(whole.state());
    expect(second.seen).toEqual(whole.seen);
    expect(second.counts).toEqual(whole.counts);
  }
});
