import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { InputError } from "../../src/quantity/index.ts";
import { type Boat, readBoat, type WindageShape, writeBoat } from "../../src/sea/index.ts";
import { kn, tern, ternText } from "./demo.ts";

const base = `format: rodebench/boat@1
name: Test
length: 12 m
beam: 3.8 m
draught: 1.8 m
displacement: 9000 kg
bowRollerHeight: 1.3 m
windage:
  shapes:
    - hull: { freeboard: 1.2 m }
    - mast: { thickness: 140 mm, foot: 1.5 m, top: 16 m }
engineThrust: 2 kN
veering: { amplitude: 25 deg, period: 40 s }
measured:
  - { wind: 20 kn, load: 200 lbf, peak: 300 lbf, at: bow, uncertainty: { load: 25 lbf } }
`;

describe("a boat file", () => {
  it("reads into SI", () => {
    const boat = readBoat(base, "b.yaml");
    expect(boat.windage).toEqual({
      kind: "shapes",
      shapes: [
        { kind: "hull", freeboard: 1.2 },
        { kind: "mast", thickness: 0.14, foot: 1.5, top: 16 },
      ],
    });
    expect(boat.measured).toHaveLength(1);
    expect(boat.measured[0]!.wind).toBeCloseTo(20 * kn, 12);
    expect(boat.measured[0]!.load).toBeCloseTo(889.6443230521, 9);
    expect(boat.veering!.amplitude).toBeCloseTo((25 * Math.PI) / 180, 15);
  });

  it("reads as JSON as well", () => {
    const json = JSON.stringify({
      format: "rodebench/boat@1",
      name: "J",
      length: 12,
      beam: "3.8 m",
      draught: 1.8,
      displacement: "9 t",
      bowRollerHeight: "4 ft",
    });
    expect(readBoat(json, "b.json")).toMatchObject({
      length: 12,
      beam: 3.8,
      displacement: 9000,
      measured: [],
      uncertainty: {},
    });
  });

  it("is the same in metric and US units", () => {
    const us = base
      .replace("length: 12 m", "length: 39.37007874015748 ft")
      .replace("20 kn", "10.288888888888889 m/s")
      .replace("9000 kg", "19841.6035966395 lb");
    const [one, other] = [readBoat(base, "a"), readBoat(us, "b")];
    expect(other.length).toBeCloseTo(one.length, 12);
    expect(other.displacement).toBeCloseTo(one.displacement, 6);
    expect(other.measured[0]!.wind).toBeCloseTo(one.measured[0]!.wind, 12);
  });

  it("comes back the same when written and read: the demo boat", () => {
    expect(readBoat(writeBoat(tern), "again")).toEqual(tern);
  });

  it("comes back the same when written and read: any boat", () => {
    fc.assert(
      fc.property(anyBoat(), (boat) => {
        expect(readBoat(writeBoat(boat), "again")).toEqual(boat);
      }),
      { numRuns: 100, seed: 7 },
    );
  });
});

const wrong: readonly (readonly [what: string, replace: string | RegExp, by: string, told: string | RegExp])[] = [
  ["a mistyped field", "length: 12 m", "lenght: 12 m", "lenght: no such field; is length meant?"],
  [
    "a field of another program",
    "name: Test",
    "name: Test\nsails: 3",
    /^b\.yaml: sails: no such field; one of format, name, /,
  ],
  ["no length", "length: 12 m\n", "", 'length: nothing given; a length is expected, such as "12 m"'],
  ["a speed for a length", "length: 12 m", "length: 12 kn", /length: "12 kn" is a speed; a length is expected/],
  ["a length without sense", "length: 12 m", "length: long", /length: "long"; /],
  ["a list for a length", "length: 12 m", "length: [12]", /length: a list; a length is expected/],
  ["a boat longer than any", "length: 12 m", "length: 900 m", 'length: "900 m"; at most 500 m is expected'],
  ["a length of zero", "beam: 3.8 m", "beam: 0 m", 'beam: "0 m"; a value above zero is expected'],
  ["a negative draught", "draught: 1.8 m", "draught: -1.8 m", 'draught: "-1.8 m"; a value above zero is expected'],
  ["a force for a mass", "9000 kg", "9000 N", /displacement: "9000 N" is a force; a mass is expected/],
  [
    "a beam wider than the length",
    "beam: 3.8 m",
    "beam: 13 m",
    "beam: 13 m, more than 12 m; a beam within the boat's length is expected",
  ],
  [
    "a waterline longer than the boat",
    "beam:",
    "waterline: 13 m\nbeam:",
    /waterline: 13 m, more than 12 m; a waterline within the boat's length is expected/,
  ],
  [
    "a body deeper than the draught",
    "beam:",
    "bodyDraught: 2 m\nbeam:",
    /bodyDraught: 2 m, more than 1.8 m; a bodyDraught within the boat's draught is expected/,
  ],
  [
    "ten times the displacement",
    "9000 kg",
    "90000 kg",
    /displacement: more than a block of waterline × beam × draught/,
  ],
  [
    "a roller under water",
    "bowRollerHeight: 1.3 m",
    "bowRollerHeight: -1 m",
    /bowRollerHeight: "-1 m"; zero or more is expected/,
  ],
  ["a name of two lines", "name: Test", 'name: "a\\nb"', /name: .*; one line of text is expected/],
  ["no name", "name: Test\n", "", "name: nothing given; one line of text is expected"],
  ["another format", "boat@1", "rig@1", 'format: "rodebench/rig@1"; rodebench/boat@1 is expected'],
  ["no format", "format: rodebench/boat@1\n", "", /format: nothing given; rodebench\/boat@1 is expected/],
  ["an unknown shape", "- hull:", "- hul:", "windage.shapes #1.hul: no such field; is hull meant?"],
  [
    "a shape that is a number",
    "hull: { freeboard: 1.2 m }",
    "hull: 3",
    "windage.shapes #1.hull: 3; a group with freeboard is expected",
  ],
  [
    "two shapes in one entry",
    "hull: { freeboard: 1.2 m }",
    "hull: { freeboard: 1.2 m }\n      part: { name: p, front: 1 m2, side: 1 m2, foot: 0 m, top: 1 m }",
    /shapes #1: hull and part; one of hull, deckhouse/,
  ],
  ["an empty shape", "hull: { freeboard: 1.2 m }", "{}", /shapes #1: an empty entry/],
  [
    "a mast upside down",
    "top: 16 m",
    "top: 1 m",
    "windage.shapes #2.mast.top: a top at or below the foot; a top above foot is expected",
  ],
  ["a mast without a foot", "foot: 1.5 m, ", "", /mast\.foot: nothing given; a length is expected/],
  [
    "an absurd drag coefficient",
    "{ freeboard: 1.2 m }",
    "{ freeboard: 1.2 m, drag: 50 }",
    /hull\.drag: 50; at most 5 is expected/,
  ],
  [
    "an area for a length",
    "thickness: 140 mm",
    "thickness: 1 m2",
    /mast\.thickness: "1 m2" is an area; a length is expected/,
  ],
  [
    "no shapes in the list",
    /shapes:\n.*\n.*\n/,
    "shapes: []\n",
    "windage.shapes: an empty list; a list of shapes is expected",
  ],
  [
    "windage both ways",
    "  shapes:",
    "  front: { area: 9 m2, drag: 1, height: 3 m }\n  shapes:",
    /windage: front and shapes; either front and side, or shapes is expected/,
  ],
  [
    "a front without a side",
    / {2}shapes:\n.*\n.*\n/,
    "  front: { area: 9 m2, drag: 1, height: 3 m }\n",
    /windage: front; either front and side/,
  ],
  [
    "headings that fall",
    "  shapes:",
    "  byHeading: [{ angle: 30 deg, along: 1, across: 0 }, { angle: 10 deg, along: 1, across: 0.2 }]\n  shapes:",
    /byHeading #2\.angle: an angle at or below the one before/,
  ],
  [
    "one heading only",
    "  shapes:",
    "  byHeading: [{ angle: 30 deg, along: 1, across: 0 }]\n  shapes:",
    "windage.byHeading: a list of 1; a list of at least two rows is expected",
  ],
  [
    "a thrust in kilograms",
    "2 kN",
    "200 kg",
    /engineThrust: "200 kg" is a mass; the force of 1 kg at rest is 1 kgf; a force is expected/,
  ],
  ["a swing past the beam", "25 deg", "125 deg", /veering\.amplitude: "125 deg"; at most 90 deg is expected/],
  ["a swing without a period", ", period: 40 s", "", /veering\.period: nothing given; a time is expected/],
  ["a load at the stern", "at: bow", "at: stern", 'measured #1.at: "stern"; anchor, bow or horizontal is expected'],
  ["a load at no end", "at: bow, ", "", /measured #1\.at: nothing given; anchor, bow or horizontal is expected/],
  ["a peak below the mean", "peak: 300 lbf", "peak: 100 lbf", /measured #1\.peak: a peak below the mean load/],
  ["a wind of two meanings", "wind: 20 kn", "wind: 20 kt", /measured #1\.wind: "20 kt" has a unit of two meanings/],
  [
    "an uncertainty of zero load",
    "{ load: 25 lbf }",
    "{ load: 0 lbf }",
    /measured #1\.uncertainty\.load: "0 lbf"; a value above zero is expected/,
  ],
  [
    "an unknown uncertainty",
    "{ load: 25 lbf }",
    "{ laod: 25 lbf }",
    /uncertainty\.laod: no such field; is load meant\?$/,
  ],
  [
    "an uncertainty beyond sense",
    "engineThrust: 2 kN",
    "engineThrust: 2 kN\nuncertainty: { drag: 500 % }",
    /uncertainty\.drag: "500 %"; at most /,
  ],
  [
    "the same field twice",
    "name: Test",
    "name: Test\nname: Again",
    "line 3: name stands twice in one group; each name once is expected",
  ],
  ["broken YAML", "windage:", "windage: [}", /^b\.yaml: line 8: .*; .* is expected$/],
  ["an alias", "name: Test", "name: *x", "the alias *x; every value is expected to be written out"],
  ["a second document", "name: Test", "name: Test\n---", "line 3: a second document; one document is expected"],
  ["a decimal comma", "length: 12 m", "length: 12,5 m", /length: "12,5 m"; /],
];

describe("a wrong boat file is told in one clear line", () => {
  it.each(wrong)("%s", (_, replace, by, told) => {
    const text = base.replace(replace, by);
    expect(text).not.toBe(base);
    const error = errorOf(() => readBoat(text, "b.yaml"));
    expect(error.message).not.toContain("\n");
    expect(error.message.startsWith("b.yaml: ")).toBe(true);
    if (typeof told === "string") expect(error.message).toBe(`b.yaml: ${told}`);
    else expect(error.message).toMatch(told);
  });

  it.each([
    "",
    "[]",
    "3",
    "null",
    "hello",
    "a: b: c",
    "\u0000",
    "- 1\n- 2",
    "{",
    '"',
    "%YAML 9\n---",
    "!!js/function x",
  ])("%j", (text) => {
    const error = errorOf(() => readBoat(text, "b.yaml"));
    expect(error.message).toMatch(/^b\.yaml: .*expected/);
    expect(error.message).not.toContain("\n");
  });

  it("never breaks otherwise: the demo boat's file with characters dropped, doubled and swapped", () => {
    fc.assert(
      fc.property(
        fc.array(
          fc.tuple(fc.nat(ternText.length - 1), fc.constantFrom("", "x", ":", "{", "-", "9", "\n", "\t", "'", "m")),
          { minLength: 1, maxLength: 6 },
        ),
        (edits) => {
          let text = ternText;
          for (const [at, by] of edits) text = text.slice(0, at) + by + text.slice(at + 1);
          try {
            readBoat(text, "b.yaml");
          } catch (error) {
            if (!(error instanceof InputError)) throw error;
            expect(error.message).not.toContain("\n");
          }
        },
      ),
      { numRuns: 400, seed: 11 },
    );
  });
});

function errorOf(act: () => unknown): InputError {
  try {
    act();
  } catch (error) {
    if (error instanceof InputError) return error;
    throw error;
  }
  throw new Error("accepted");
}

function anyBoat(): fc.Arbitrary<Boat> {
  const real = (min: number, max: number) => fc.double({ min, max, noNaN: true });
  const shape: fc.Arbitrary<WindageShape> = fc.oneof(
    real(0.1, 4).map((freeboard): WindageShape => ({ kind: "hull", freeboard })),
    fc
      .tuple(real(0.1, 1), real(0, 3), real(3.1, 30))
      .map(([thickness, foot, top]): WindageShape => ({ kind: "mast", thickness, foot, top })),
    fc.tuple(real(0, 9), real(0.1, 9), real(0, 3), real(3.1, 9), real(0.1, 2)).map(
      ([front, side, foot, top, drag]): WindageShape => ({
        kind: "part",
        name: "a part",
        front,
        side,
        foot,
        top,
        drag,
      }),
    ),
  );
  const face = fc.record({ area: real(0, 60), drag: real(0.1, 2), height: real(0, 12) });
  const heading = fc.tuple(real(0, 0.9), real(1, 3)).map(([first, second]) => [
    { angle: first, along: 1, across: 0 },
    { angle: second, along: -0.5, across: 1.1 },
  ]);
  return fc
    .record({
      faces: fc.option(fc.tuple(face, face), { nil: undefined }),
      byHeading: fc.option(heading, { nil: undefined }),
      windHeight: fc.option(real(2, 30), { nil: undefined }),
      length: real(3, 60),
      slender: real(2, 6),
      displaced: real(0.1, 0.9),
      draught: real(0.3, 4),
      roller: real(0, 4),
      shapes: fc.array(shape, { minLength: 1, maxLength: 5 }),
      swing: fc.option(fc.record({ amplitude: real(0.01, 1.5), period: real(1, 100) }), { nil: undefined }),
      points: fc.array(fc.record({ wind: real(0.5, 50), load: real(1, 1e5), u: real(0.01, 1e4) }), { maxLength: 4 }),
      thrust: fc.option(real(1, 1e5), { nil: undefined }),
      drag: fc.option(real(0, 1), { nil: undefined }),
    })
    .map(
      ({
        faces,
        byHeading,
        windHeight,
        length,
        slender,
        displaced,
        draught,
        roller,
        shapes,
        swing,
        points,
        thrust,
        drag,
      }) => {
        const beam = length / slender;
        return {
          name: "Any",
          length,
          beam,
          draught,
          displacement: displaced * 1025 * length * beam * draught,
          bowRollerHeight: roller,
          windage: {
            ...(faces === undefined ? { kind: "shapes", shapes } : { kind: "areas", front: faces[0], side: faces[1] }),
            ...(byHeading === undefined ? {} : { byHeading }),
          },
          measured: points.map(({ wind, load, u }) => ({
            wind,
            load,
            at: "bow",
            uncertainty: { load: u },
            ...(windHeight === undefined ? {} : { windHeight }),
          })),
          uncertainty: drag === undefined ? {} : { drag },
          ...(thrust === undefined ? {} : { engineThrust: thrust }),
          ...(swing === undefined ? {} : { veering: swing }),
        } satisfies Boat as Boat;
      },
    );
}
