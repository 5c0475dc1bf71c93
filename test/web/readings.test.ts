import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { readRun, reduce, writeRun } from "../../src/pull/index.ts";
import { type Rig, settle } from "../../src/rode/index.ts";
import { readingsCodec } from "../../src/web/readings/address.ts";
import { judgeRun } from "../../src/web/readings/judge-run.ts";
import { type Column, guessReading, type Pasted, readPasted } from "../../src/web/readings/pasted.ts";
import { demoRun, stateOfRunFile, textOfRun } from "../../src/web/readings/run-files.ts";
import { type ReadingsState, runOf, usualReadings, wholeRows } from "../../src/web/readings/state.ts";
import { judgementWords } from "../../src/words/index.ts";
import { refusalOf, stateOf } from "../support/address.ts";

const DEGREE = Math.PI / 180;
/** Newtons in a pound-force: exact by the definitions of the pound, the foot and standard gravity (computed). */
const LBF = 0.45359237 * 9.80665;
const INCH = 0.0254;

const LOAD: Column = {
  name: "load",
  dimension: "force",
  unit: "N",
  titles: /load|cell/i,
  range: { above: 0, most: 1e9, expected: "a load above zero is expected" },
};
const ANGLE: Column = { name: "angle", dimension: "angle", unit: "deg", titles: /angle/i };
const MOVED: Column = { name: "moved", dimension: "length", unit: "mm", titles: /mov/i };

/** Rows as numbers of some unit, to nine digits: sharper than any gauge. */
const inUnits = (rows: Pasted["rows"], ...scales: number[]) =>
  rows.map((row) => row.map((value, i) => (value === null ? null : Number((value / scales[i]!).toPrecision(9)))));

/** A table read by the first guess, with what that guess leaves open. */
function guessed(text: string, columns: readonly Column[], takesWords = true) {
  const { cells, reading, open } = guessReading(text, columns, takesWords);
  return { ...readPasted(cells, reading, columns), open, reading, cells };
}

describe("a pasted table", () => {
  const table = [
    [400, 7.5],
    [500, 8.25],
    [600, 9],
  ];
  for (const [name, by] of [
    ["tabs", "\t"],
    ["semicolons", ";"],
    ["commas", ","],
    ["commas and spaces", ", "],
    ["wide spaces", "   "],
    ["single spaces", " "],
  ] as const)
    it(`is read when parted by ${name}`, () => {
      const read = guessed(table.map((row) => row.join(by)).join("\n"), [LOAD, ANGLE]);
      expect([...read.wrong, ...read.open]).toEqual([]);
      expect(inUnits(read.rows, 1, DEGREE)).toEqual(table);
    });

  it("takes its units from titles, in round or square brackets or after a slash", () => {
    for (const titles of ["Load (lbf)\tAngle (deg)", "Load [lbf]\tAngle [deg]", "Load / lbf\tAngle / deg"]) {
      const read = guessed(`${titles}\n400\t7.5\n500\t8.25`, [LOAD, ANGLE]);
      expect([...read.wrong, ...read.open]).toEqual([]);
      expect(inUnits(read.rows, LBF, DEGREE)).toEqual([
        [400, 7.5],
        [500, 8.25],
      ]);
    }
  });

  it("takes its columns by their titles, in whatever order they stand", () => {
    const read = guessed("Angle (deg)\tLoad (kN)\n7.5\t0.4\n8.25\t0.5", [LOAD, ANGLE]);
    expect(read.open).toEqual([]);
    expect(inUnits(read.rows, 1, DEGREE)).toEqual([
      [400, 7.5],
      [500, 8.25],
    ]);
  });

  it("never takes a movement for a load: what no title says is asked, what is not used is told", () => {
    const read = guessed("Moved (mm)\tTension (kN)\tWater temperature\n12\t4.1\t9\n30\t3.2\t9", [
      { ...LOAD, titles: /load|tension/i },
      ANGLE,
    ]);
    expect(inUnits(read.rows, 1, DEGREE)).toEqual([
      [4100, 9],
      [3200, 9],
    ]);
    expect(read.open).toEqual(['no title says angle; "Water temperature" is taken for it', 'not used: "Moved (mm)"']);
    const two = guessed("Load port\tLoad starboard\tAngle\n400\t410\t7", [LOAD, ANGLE]);
    expect(two.open[0]).toBe('2 titles may be the load: "Load port", "Load starboard"');
    // A unit alone says what a column is.
    const byUnit = guessed("F (kN)\tinclination (deg)\n0.4\t7", [LOAD, ANGLE]);
    expect([byUnit.open, inUnits(byUnit.rows, 1, DEGREE)]).toEqual([[], [[400, 7]]]);
    // The first column of all can be the one that is taken for it.
    const first = guessed("Water\tAngle\n400\t7", [LOAD, ANGLE]);
    expect([first.open, first.rows]).toEqual([['no title says load; "Water" is taken for it'], expect.anything()]);
    expect(first.reading.uses).toEqual([0, 1]);
    const none = guessed("Time (s)\tDepth (m)\n1\t6\n2\t6", [LOAD, ANGLE]);
    expect(none.reading.uses).toEqual(["none", "none"]);
    expect(none.open).toEqual(["no title says load", "no title says angle", 'not used: "Time (s)", "Depth (m)"']);
  });

  it("asks about more columns than it knows where no titles stand", () => {
    const read = guessed("400\t7\t0.012\n500\t8\t0.013", [LOAD, ANGLE]);
    expect(read.open).toEqual(["not used: column 3"]);
  });

  it("knows a title with a number in its words for a title", () => {
    const read = guessed("Cell 2 (kN)\tAngle\n0.4\t7", [LOAD, ANGLE]);
    expect([...read.wrong, ...read.open]).toEqual([]);
    expect(inUnits(read.rows, 1000, DEGREE)).toEqual([[0.4, 7]]);
  });

  it("takes quantities as people write them, each with its own unit, and fractions in the unit of the column", () => {
    const read = guessed("900 lbf\t9 1/2 in\n4 kN\t1 cm\n700\t2' 3\"", [LOAD, MOVED]);
    expect([...read.wrong, ...read.open]).toEqual([]);
    expect(inUnits(read.rows, 1, INCH)).toEqual([
      [Number((900 * LBF).toPrecision(9)), 9.5],
      [4000, Number((1 / 2.54).toPrecision(9))],
      [700, 27],
    ]);
    const fractions = guessed("Load (lbf);Moved (in)\n900;1/2\n800;1 1/2", [LOAD, MOVED]);
    expect(inUnits(fractions.rows, LBF, INCH)).toEqual([
      [900, 0.5],
      [800, 1.5],
    ]);
  });

  it("leaves empty what holds a dash, a word or nothing; takes lift-off from words, and tells the other words", () => {
    const read = guessed("300\tlift-off\n400\t7.5\tcalm\n500\t–\n\t8", [LOAD, ANGLE]);
    expect(read.wrong).toEqual([]);
    expect(inUnits(read.rows, 1, DEGREE)).toEqual([
      [300, null],
      [400, 7.5],
      [500, null],
      [null, 8],
    ]);
    expect(read.liftoff).toEqual([true, false, false, false]);
    expect(read.unusedWords).toEqual(['row 2: "calm"']);
    const shallow = guessed("300\t3\tlifting hook bent\n", [LOAD, ANGLE]);
    expect(shallow.liftoff).toEqual([true]);
    for (const words of ["not lifted off", "no lift-off yet", "before lift-off", "airlift"])
      expect(guessed(`300\t3\t${words}`, [LOAD, ANGLE]).liftoff).toEqual([false]);
  });

  it("tells the rows that cannot be read by their line, empty lines counted", () => {
    const read = guessed("Load (N)\tAngle\n400\t7\n\n500\t12 kn\nsix?7\t3\n700\t8\n-5\t3", [LOAD, ANGLE]);
    expect(inUnits(read.rows, 1, DEGREE)).toEqual([
      [400, 7],
      [700, 8],
    ]);
    expect(read.wrong).toHaveLength(3);
    expect(read.wrong[0]).toMatch(/^row 4: angle: .*12 kn/);
    expect(read.wrong[1]).toMatch(/^row 5: load: .*six\?7/);
    expect(read.wrong[2]).toBe('row 7: load: "-5"; a load above zero is expected');
  });

  it.each([
    ["tabs", "400,5\t7,25\n1.250,5\t8,5"],
    ["semicolons", "400,5;7,25\n1.250,5;8,5"],
    ["spaces", "400,5 7,25\n1250,5 8,5"],
  ])("reads a decimal comma where %s part the cells", (_, text) => {
    const read = guessed(text, [LOAD, ANGLE]);
    expect([...read.wrong, ...read.open]).toEqual([]);
    expect(inUnits(read.rows, 1, DEGREE)).toEqual([
      [400.5, 7.25],
      [1250.5, 8.5],
    ]);
  });

  it("asks where a sign may part decimals or thousands, and where both signs are decimals", () => {
    const either = guessed("1,250\t7\n1,500\t9", [LOAD, ANGLE]);
    expect(either.open).toEqual(["1,250 may be a decimal or thousands: it is read as 1250"]);
    expect(readPasted(either.cells, { ...either.reading, decimal: "comma" }, [LOAD, ANGLE]).rows[0]![0]).toBe(1.25);
    const point = guessed("1.250\t7\n1.500\t9", [LOAD, ANGLE]);
    expect(point.open[0]).toMatch(/^1\.250 may be a decimal or thousands/);
    // One number that cannot be thousands settles the others.
    expect(guessed("1,250\t7.5\n1,500\t9.25", [LOAD, ANGLE])).toMatchObject({ open: [], wrong: [] });
    expect(guessed("1.250\t7,5", [LOAD, ANGLE]).rows[0]![0]).toBe(1250);
    expect(guessed("400,5\t7.5", [LOAD, ANGLE]).open[0]).toMatch(/^400,5 may be/);
    // Four cells by commas are four columns: asked, never joined.
    expect(guessed("400,5,7,25", [LOAD, ANGLE]).open).toEqual(["not used: column 3, column 4"]);
  });

  it("takes two thousand rows below their titles, and says what it left out", () => {
    const rows = (count: number) => Array.from({ length: count }, (_, i) => `${i + 1}\t1`).join("\n");
    const read = guessed(rows(2003), [LOAD, ANGLE]);
    expect(read.rows).toHaveLength(2000);
    expect(read.wrong).toHaveLength(1);
    expect(read.wrong[0]).toMatch(/^row 2001 and after: /);
    const titled = guessed(`Load\tAngle\n${rows(2001)}`, [LOAD, ANGLE]);
    expect([titled.rows.length, titled.wrong[0]?.slice(0, 18)]).toEqual([2000, "row 2002 and after"]);
    expect(guessed(`Load\tAngle\n${rows(2000)}`, [LOAD, ANGLE]).wrong).toEqual([]);
  });

  it("never throws, whatever is pasted, and gives every line a row or a word about it", () => {
    fc.assert(
      fc.property(fc.string({ maxLength: 200, unit: "grapheme" }), (text) => {
        const read = guessed(text, [LOAD, MOVED]);
        const lines = text.split(/\r\n?|\n/).filter((line) => line.trim() !== "").length;
        expect(read.rows.length + read.wrong.length + (read.cells.titles === null ? 0 : 1)).toBe(lines);
        for (const row of read.rows)
          for (const value of row) expect(value === null || Number.isFinite(value)).toBe(true);
        for (const line of read.wrong) expect(line).not.toContain("\n");
      }),
      { seed: 41, numRuns: 500 },
    );
  });
});

describe("the run of the rows", () => {
  const state = (change: Partial<ReadingsState>): ReadingsState => ({ ...usualReadings, ...change });

  it("is none while no row is whole, and of the whole rows only", () => {
    expect(runOf(usualReadings)).toBeNull();
    expect(runOf(state({ readings: [{ load: 400, angle: null, liftoff: false }] }))).toBeNull();
    expect(runOf(state({ readings: [{ load: null, angle: 0.1, liftoff: true }] }))).toBeNull();
    const some = state({
      readings: [
        { load: 300, angle: null, liftoff: true },
        { load: null, angle: 0.1, liftoff: false },
        { load: 400, angle: 0.1, liftoff: false },
      ],
    });
    expect(wholeRows(some).readings).toEqual([0, 2]);
    expect(runOf(some)?.readings).toEqual([
      { load: 300, liftoff: true },
      { load: 400, angle: 0.1, liftoff: false },
    ]);
  });

  it("counts movement from the first row, wherever the tape began", () => {
    const release = [
      { load: 1000, movement: 0.25 },
      { load: 900, movement: null },
      { load: 800, movement: 0.75 },
    ];
    expect(runOf(state({ release }))?.release).toEqual([
      { load: 1000, movement: 0 },
      { load: 800, movement: 0.5 },
    ]);
    expect(runOf(state({ release: release.slice(0, 1) }))).toBeNull();
  });

  it("is judged with one row of a release beside its angles, which says nothing yet", () => {
    const run = runOf(
      state({
        readings: [{ load: 1500, angle: 4 * DEGREE, liftoff: false }],
        release: [{ load: 1500, movement: 0.1 }],
      }),
    )!;
    const outcome = judgeRun(run, usualReadings.rig, "metric", 400);
    expect(outcome.kind).toBe("judged");
    if (outcome.kind !== "judged") return;
    expect(outcome.movement).toBeNull();
    expect(outcome.angle?.svg).toContain("<svg");
  });
});

describe("the work behind the table", () => {
  it("reduces, judges and draws as the library does", () => {
    const state = demoRun();
    const run = runOf(state)!;
    const outcome = judgeRun(run, state.rig, "metric", 560);
    if (outcome.kind !== "judged") throw new Error("judged is expected");
    expect(outcome.reduced).toEqual(reduce(run, state.rig));
    // The script that made the demo says so: below 600 N chain sticks on the ground.
    expect(outcome.reduced.release.filter((row) => row.outlier).map((row) => row.load)).toEqual([500, 400]);
    expect(outcome.judgements.filter((verdict) => /outlier/.test(judgementWords(verdict))).map((v) => v.load)).toEqual([
      500, 400,
    ]);
    for (const figure of [outcome.angle, outcome.movement])
      expect(figure?.svg).toMatch(/^<svg[\s\S]*outlier[\s\S]*<\/svg>$/);
  });

  it("says of which row no equilibrium answers, why, and what would", () => {
    const short: Rig = {
      ...usualReadings.rig,
      setting: { medium: "air", rise: 30, bottomSlope: 0, bottomFriction: 0 },
    };
    expect(settle(short, { at: "anchor", newtons: 1500 }).kind).toBe("noEquilibrium");
    const state = { ...usualReadings, rig: short, readings: [{ load: 1500, angle: 0.1, liftoff: false }] };
    const outcome = judgeRun(runOf(state)!, short, "metric", 400);
    if (outcome.kind !== "refused") throw new Error("refused is expected");
    expect(outcome.row).toMatchObject({ kind: "noEquilibrium", list: "readings", row: 0, load: 1500 });
    expect(outcome.why).toMatch(/^no equilibrium: .*28 m.*30 m/);
    expect(outcome.why).not.toContain("\n");
  });

  it("says of which row a lift-off was noted that theory has none of", () => {
    const level: Rig = { ...usualReadings.rig, setting: { medium: "air", rise: 0, bottomSlope: 0, bottomFriction: 0 } };
    const noted = { load: 1500, angle: null, liftoff: true };
    const state = { ...usualReadings, rig: level, readings: [{ load: 2000, angle: 0.1, liftoff: false }, noted] };
    const outcome = judgeRun(runOf(state)!, level, "us", 400);
    if (outcome.kind !== "refused") throw new Error("refused is expected");
    expect(outcome.row).toMatchObject({ kind: "neverLiftsOff", list: "readings", row: 1, load: 1500 });
    expect(outcome.why).toBe("an angle is expected beside the lift-off: by theory no load lifts this rig off");
  });
});

describe("readings in a file", () => {
  it("come back as they were: rows, ends, uncertainties, rig", () => {
    const state = demoRun();
    expect(state.u.gaugeZero).toBeCloseTo(0.5 * DEGREE, 12);
    const again = stateOfRunFile(textOfRun(runOf(state)!, state.rig), "again.yaml");
    expect({ ...again, u: null, readings: null }).toEqual({ ...state, u: null, readings: null });
    again.readings.forEach((row, i) => {
      expect(row.load).toBe(state.readings[i]!.load);
      expect(row.liftoff).toBe(state.readings[i]!.liftoff);
      // To and fro between radians and degrees costs a bit or two of the last place.
      if (row.angle !== null) expect(row.angle).toBeCloseTo(state.readings[i]!.angle!, 12);
    });
    for (const key of ["load", "angle", "movement", "gaugeZero"] as const)
      expect(again.u[key]).toBeCloseTo(state.u[key], 12);
  });

  it("keep what was left unstated unstated, so that page and command judge alike", () => {
    const state = { ...demoRun(), u: { load: 0, angle: 0, movement: 0, gaugeZero: 0 } };
    const text = writeRun(runOf(state)!, state.rig);
    expect(text).not.toMatch(/^uncertainty: *\n +(load|angle|movement): /m);
    expect(stateOfRunFile(text, "plain.yaml").u).toEqual(state.u);
    expect(readRun(text, "plain.yaml").run.uncertainty).toEqual(state.u);
  });

  it("whose rig is in a file of its own ask for the rig", () => {
    const text = "format: rodebench/run@1\nrig: other.yaml\nloadCellAt: bow\nreadings:\n  - { load: 400, angle: 3 }\n";
    expect(() => stateOfRunFile(text, "pull.yaml")).toThrow(/^pull\.yaml: rig: other\.yaml; .*take it from the bench/);
  });
});

describe("the address of readings", () => {
  /** Nine digits are kept. */
  const number = (least: number, most: number) =>
    fc.double({ min: least, max: most, noNaN: true }).map((value) => Number(value.toPrecision(9)));
  const cell = (least: number, most: number) => fc.option(number(least, most), { nil: null });
  const degrees = fc.option(
    fc.double({ min: -80, max: 80, noNaN: true }).map((value) => Number(value.toPrecision(9))),
    { nil: null },
  );

  it("gives back every state it was written of, whole rows or not", () => {
    fc.assert(
      fc.property(
        fc.record({
          name: fc.string({ maxLength: 40 }),
          loadCellAt: fc.constantFrom("anchor", "bow"),
          angleAt: fc.constantFrom("anchor", "bow"),
          u: fc.tuple(number(0.1, 100), number(0.01, 5), number(1e-4, 1), fc.constantFrom(0, 0.5)),
          readings: fc.array(fc.record({ load: cell(0.1, 1e6), degrees, liftoff: fc.boolean() }), { maxLength: 12 }),
          release: fc.array(fc.record({ load: cell(0.1, 1e6), movement: cell(-50, 50) }), { maxLength: 12 }),
        }),
        ({ u, readings, ...rest }) => {
          const state = {
            ...usualReadings,
            ...rest,
            u: { load: u[0], angle: u[1] * DEGREE, movement: u[2], gaugeZero: u[3] * DEGREE },
            readings: readings.map((row) => ({
              load: row.load,
              liftoff: row.liftoff,
              angle: row.degrees === null ? null : row.degrees * DEGREE,
            })),
          } as ReadingsState;
          const fields = readingsCodec.write(state);
          const read = stateOf(readingsCodec, fields);
          // Written again it is the same text: nine digits lose nothing more.
          expect(readingsCodec.write(read)).toEqual(fields);
          expect({ ...read, u: null, readings: null }).toEqual({ ...state, u: null, readings: null });
          expect(read.readings).toHaveLength(state.readings.length);
          read.readings.forEach((row, i) => {
            const was = state.readings[i]!;
            expect([row.load, row.liftoff, row.angle === null]).toEqual([was.load, was.liftoff, was.angle === null]);
            if (row.angle !== null) expect(row.angle).toBeCloseTo(was.angle!, 8);
          });
          for (const key of ["load", "angle", "movement", "gaugeZero"] as const)
            expect(read.u[key]).toBeCloseTo(state.u[key], 8);
        },
      ),
      { seed: 42, numRuns: 300 },
    );
  });

  it("that is not of readings gives none, and one that is broken is refused with every fault named", () => {
    expect(readingsCodec.read({})).toEqual({ kind: "none" });
    const good = readingsCodec.write(usualReadings);
    expect(refusalOf(readingsCodec, { ...good, rode: "" })[0]).toMatch(/^rode, part 1: /);
    expect(
      refusalOf(readingsCodec, { ...good, read: "400,7;oops,;,,;-1e999,3", u: "x,-2", cell: "mast" }).map(
        (line) => line.split(" is given")[0],
      ),
    ).toEqual(['cell: "mast"', 'u, load: "x"', 'u, angle: "-2"', 'read, row 2: "oops"', 'read, row 4: "-1e999"']);
    const many = { ...usualReadings, readings: Array(3000).fill({ load: 400, angle: null, liftoff: true }) };
    expect(stateOf(readingsCodec, readingsCodec.write(many)).readings).toHaveLength(3000);
  });
});
