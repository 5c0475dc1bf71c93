import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { catalogue, findChain, findRope, merge, readCatalogue } from "../../src/gear/index.ts";
import { InputError } from "../../src/quantity/index.ts";

const file = (rows: string, more = "") => `format: rodebench/gear@1\n${more}rows:\n${rows}`;
const chain = (fields: string) => file(`  - chain: { grade: 30, size: 10 mm, massPerLength: 2.3 kg/m, ${fields} }\n`);
const rope = (fields: string) =>
  file(
    `  - rope: { fibre: nylon, lay: laid, diameter: 14 mm, massPerLength: 120 g/m, density: 1140 kg/m3, ${fields} }\n`,
  );

describe("a user's own rows", () => {
  it("need no more than what was weighed", () => {
    const own = readCatalogue(file("  - chain: { grade: 30, size: 10 mm, massPerLength: 2.31 kg/m }\n"), "mine.yaml");
    const [row] = own.rows;
    expect(row).toMatchObject({
      kind: "chain",
      name: "chain 10 mm grade 30",
      massPerLength: 2.31,
      density: 7850,
      origin: "mine.yaml",
    });
    expect(row!.figures.massPerLength).toEqual([{ value: 2.31, basis: "stated", source: "mine.yaml" }]);
    expect(own.sources["mine.yaml"]).toEqual({ cite: "Stated in mine.yaml" });
    // Without a link shape the usual short link is assumed, and said to be computed.
    expect(row!.figures.stretch![0]).toMatchObject({ basis: "computed" });
  });

  it("may keep several figures with their sources, the first used", () => {
    const text = file(
      "  - chain:\n      grade: 30\n      size: 10 mm\n      massPerLength:\n        - { value: 2.31 kg/m, source: scale, basis: measured, spread: 1 % }\n        - 1.6 lb/ft\n",
      "sources: { scale: { cite: Ten links on a kitchen scale } }\n",
    );
    const own = readCatalogue(text, "mine.yaml");
    const row = own.rows[0]!;
    expect(row.figures.massPerLength!.map((f) => [f.basis, f.source])).toEqual([
      ["measured", "mine.yaml: scale"],
      ["stated", "mine.yaml"],
    ]);
    // Weighed: sure to the 1 % stated, though a table is 3 % off.
    expect(row.uncertainty.massPerLength).toBeCloseTo(0.01 / Math.sqrt(3), 12);
  });

  it("tell one load by the other", () => {
    const up = readCatalogue(chain("workingLoad: 12 kN, breakingLoad: { share: 4, of: workingLoad }"), "mine.yaml")
      .rows[0]!;
    expect([up.workingLoad, up.breakingLoad]).toEqual([12_000, 48_000]);
    const down = readCatalogue(
      chain("breakingLoad: 48 kN, workingLoad: { share: 25 %, of: breakingLoad }"),
      "mine.yaml",
    ).rows[0]!;
    expect([down.workingLoad, down.breakingLoad]).toEqual([12_000, 48_000]);
  });

  it("take the usual curve of their fibre and lay, scaled by their breaking load, or one of their own", () => {
    const usual = readCatalogue(rope("breakingLoad: 40 kN"), "mine.yaml").rows[0]!;
    const builtIn = findRope({ fibre: "nylon", lay: "laid", diameter: "14 mm" }, catalogue, "rope");
    if (usual.kind !== "rope" || usual.stretch.kind !== "curve" || builtIn.stretch.kind !== "curve")
      throw new Error("a rope with a curve");
    const scale = 40_000 / builtIn.breakingLoad!;
    usual.stretch.points.forEach(([strain, load], i) => {
      const [strainThere, loadThere] = (builtIn.stretch as { points: readonly (readonly [number, number])[] }).points[
        i
      ]!;
      expect(strain).toBe(strainThere);
      expect(load / (loadThere * scale)).toBeCloseTo(1, 12);
    });
    const own = readCatalogue(
      rope('breakingLoad: 40 kN, stretch: { curve: [[0.05, "10 %"], [9 %, 8 kN]] }'),
      "mine.yaml",
    ).rows[0]!;
    expect(own).toMatchObject({
      stretch: {
        kind: "curve",
        points: [
          [0.05, 4000],
          [0.09, 8000],
        ],
      },
    });
    const straight = readCatalogue(rope("stretch: { stiffness: 90 kN }"), "mine.yaml").rows[0]!;
    expect(straight).toMatchObject({ stretch: { kind: "linear", stiffness: 90_000 } });
    expect(readCatalogue(rope("stretch: none"), "mine.yaml").rows[0]).toMatchObject({ stretch: { kind: "rigid" } });
  });

  it("win over the rows built in, and that is said", () => {
    const own = readCatalogue(
      file(
        "  - chain: { grade: 30, size: 3/8 in, massPerLength: 1.65 lb/ft }\n  - chain: { grade: 30, size: 9 mm, massPerLength: 1.8 kg/m }\n",
      ),
      "mine.yaml",
    );
    const { catalogue: both, replaced } = merge(catalogue, own);
    expect(replaced).toEqual(["chain 3/8 in grade 30"]);
    expect(both.rows.length).toBe(catalogue.rows.length + 1);
    expect(findChain({ grade: 30, size: "3/8 in" }, both, "chain").origin).toBe("mine.yaml");
    expect(findChain({ grade: 30, size: "9 mm" }, both, "chain").massPerLength).toBe(1.8);
    for (const row of both.rows)
      for (const f of Object.values(row.figures).flat()) expect(both.sources[f.source]).toBeDefined();
  });

  it("may be JSON", () => {
    const text = JSON.stringify({
      format: "rodebench/gear@1",
      rows: [{ point: { what: "Swivel", size: "12 mm", mass: "0.4 kg" } }],
    });
    expect(readCatalogue(text, "mine.json").rows[0]).toMatchObject({ kind: "point", name: "swivel 12 mm", mass: 0.4 });
  });
});

describe("merging", () => {
  it("with nothing changes nothing, and twice is once", () => {
    const nothing = { sources: {}, curves: {}, rows: [] };
    expect(merge(catalogue, nothing)).toEqual({ catalogue, replaced: [] });
    expect(merge(catalogue, catalogue).catalogue).toEqual(catalogue);
  });
});

describe("a wrong gear file gives one line: file, field, value, what was expected", () => {
  const wrong: [title: string, text: string, line: string | RegExp][] = [
    ["nothing", "", "mine.yaml: an empty file; a group of fields is expected"],
    ["a list", "- 1", "mine.yaml: a list; a group of fields is expected"],
    ["a word", "chain", 'mine.yaml: "chain"; a group of fields is expected'],
    ["no YAML", "format: {", "mine.yaml: line 1: a { that is not closed; a } at its end is expected"],
    [
      "a key twice",
      "format: rodebench/gear@1\nformat: rodebench/gear@1\nrows: []",
      "mine.yaml: line 2: format stands twice in one group; each name once is expected",
    ],
    [
      "a second document",
      `${chain("")}---\n${chain("")}`,
      "mine.yaml: line 4: a second document; one document is expected",
    ],
    ["an alias", chain("note: *me"), "mine.yaml: the alias *me; every value is expected to be written out"],
    [
      "another format",
      "format: rodebench/gear@9\nrows: []",
      'mine.yaml: format: "rodebench/gear@9"; rodebench/gear@1 is expected',
    ],
    ["no format", "rows: []", "mine.yaml: format: nothing given; rodebench/gear@1 is expected"],
    ["no rows", "format: rodebench/gear@1", "mine.yaml: rows: nothing given; a list is expected"],
    [
      "empty rows",
      "format: rodebench/gear@1\nrows: []",
      "mine.yaml: rows: an empty list; at least one row is expected",
    ],
    ["a mistyped kind", file("  - chian: {}\n"), "mine.yaml: rows #1.chian: no such field; is chain meant?"],
    [
      "two kinds in a row",
      file(
        "  - { chain: { grade: 30, size: 1 cm, massPerLength: 1 kg/m }, point: { what: a, size: 1 cm, mass: 1 kg } }\n",
      ),
      /rows #1: a group of fields; one of chain, rope, wire, point is expected/,
    ],
    [
      "a mistyped field",
      chain("brakingLoad: 40 kN"),
      "mine.yaml: rows #1.chain.brakingLoad: no such field; is breakingLoad meant?",
    ],
    [
      "no mass",
      file("  - chain: { grade: 30, size: 10 mm }\n"),
      /rows #1\.chain\.massPerLength: nothing given; a figure is expected/,
    ],
    [
      "a size of the wrong dimension",
      file("  - chain: { grade: 30, size: 10 kg, massPerLength: 2 kg/m }\n"),
      'mine.yaml: rows #1.chain.size: "10 kg" is a mass; a length is expected, such as "10 m"',
    ],
    [
      "a size without its unit, taken as metres",
      file("  - chain: { grade: 30, size: 10, massPerLength: 2 kg/m }\n"),
      "mine.yaml: rows #1.chain.size: 10; a diameter between 0.5 mm and 200 mm is expected",
    ],
    [
      "a mass for a mass per length",
      file("  - chain: { grade: 30, size: 10 mm, massPerLength: 2 kg }\n"),
      /massPerLength: "2 kg" is a mass; a mass per length is expected/,
    ],
    [
      "a decimal comma",
      file('  - chain: { grade: 30, size: 10 mm, massPerLength: "2,3 kg/m" }\n'),
      /massPerLength: "2,3 kg\/m"; /,
    ],
    [
      "no weight at all",
      file("  - chain: { grade: 30, size: 10 mm, massPerLength: 0 kg/m }\n"),
      'mine.yaml: rows #1.chain.massPerLength: "0 kg/m"; more than nothing is expected',
    ],
    [
      "a negative load",
      chain("breakingLoad: -4 kN"),
      'mine.yaml: rows #1.chain.breakingLoad: "-4 kN"; more than nothing is expected',
    ],
    [
      "a working load above the breaking load",
      chain("breakingLoad: 4 kN, workingLoad: 5 kN"),
      "mine.yaml: rows #1.chain.workingLoad: 5000 N; no more than the breaking load, 4000 N, is expected",
    ],
    [
      "loads told by each other",
      chain("breakingLoad: { share: 4, of: workingLoad }, workingLoad: { share: 25 %, of: breakingLoad }"),
      /breakingLoad|workingLoad/,
    ],
    [
      "a load told by itself",
      chain("breakingLoad: { share: 4, of: breakingLoad }"),
      'mine.yaml: rows #1.chain.breakingLoad.of: "breakingLoad"; another load of this row, given as a quantity, is expected',
    ],
    [
      "a source that is not there",
      chain("source: me"),
      'mine.yaml: rows #1.chain.massPerLength.source: "me"; the name of one of the file\'s sources is expected',
    ],
    [
      "an unknown basis",
      chain("basis: guessed"),
      'mine.yaml: rows #1.chain.basis: "guessed"; one of seen, computed, recalled, stated, measured is expected',
    ],
    [
      "a source without its title",
      file("  - point: { what: swivel, size: 12 mm, mass: 1 kg }\n", "sources: { me: {} }\n"),
      "mine.yaml: sources.me.cite: nothing given; a word is expected",
    ],
    [
      "no grade",
      file('  - chain: { grade: "", size: 10 mm, massPerLength: 2 kg/m }\n'),
      'mine.yaml: rows #1.chain.grade: ""; a grade is expected, such as "30"',
    ],
    [
      "a link narrower than its bar",
      chain("insideWidth: 9 mm"),
      'mine.yaml: rows #1.chain.insideWidth: "9 mm"; more than the bar, and less than ten times, is expected',
    ],
    [
      "a link shorter than wide",
      chain("pitch: 12 mm"),
      'mine.yaml: rows #1.chain.pitch: "12 mm"; more than the inside width, and less than twenty bars, is expected',
    ],
    [
      "no density of rope",
      file("  - rope: { fibre: nylon, lay: laid, diameter: 14 mm, massPerLength: 120 g/m }\n"),
      'mine.yaml: rows #1.rope.density: nothing given; a density is expected, such as "1140 kg/m3"',
    ],
    [
      "a rope whose stretch nothing tells",
      rope(""),
      "mine.yaml: rows #1.rope.stretch: nothing given; a stretch, or a breakingLoad to scale the usual curve by, is expected",
    ],
    [
      "an unknown fibre without a stretch",
      rope("").replace("nylon", "hemp"),
      "mine.yaml: rows #1.rope.stretch: nothing given; none, a stiffness or a curve is expected",
    ],
    [
      "a curve that is not there",
      rope("breakingLoad: 4 kN, stretch: { curve: elastic }"),
      /rows #1\.rope\.stretch\.curve: "elastic"; one of the curves polyamide three-strand, .* is expected/,
    ],
    [
      "a curve that falls",
      rope("stretch: { curve: [[5 %, 2 kN], [9 %, 1 kN]] }"),
      'mine.yaml: rows #1.rope.stretch.curve #2 #2: "1 kN"; more load than at the point before is expected',
    ],
    [
      "a curve that turns back",
      rope("stretch: { curve: [[5 %, 1 kN], [4 %, 2 kN]] }"),
      'mine.yaml: rows #1.rope.stretch.curve #2 #1: "4 %"; more strain than at the point before is expected',
    ],
    [
      "a share of no breaking load",
      rope("stretch: { curve: [[5 %, 10 %]] }"),
      'mine.yaml: rows #1.rope.stretch.curve #1 #2: "10 %"; a breakingLoad beside it, or a force, is expected',
    ],
    [
      "a stretch that is none of its kinds",
      rope("stretch: elastic"),
      /rows #1\.rope\.stretch: "elastic"; a stretch is expected: none, /,
    ],
    [
      "more strength wet than dry",
      rope("breakingLoad: 4 kN, wetStrength: 110 %"),
      "mine.yaml: rows #1.rope.wetStrength: 1.1; at most 100 % is expected",
    ],
    [
      "wire without a stretch",
      file("  - wire: { material: stainless, construction: 1x19, diameter: 8 mm, massPerLength: 300 g/m }\n"),
      /rows #1\.wire\.stretch: nothing given; none, \{ stiffness/,
    ],
    [
      "a modulus that is a force",
      file(
        "  - wire: { material: stainless, construction: 1x19, diameter: 8 mm, massPerLength: 300 g/m, stretch: { modulus: 90 kN, areaFactor: 0.6 } }\n",
      ),
      /stretch\.modulus: "90 kN" is a force; a pressure is expected/,
    ],
    [
      "the same article twice",
      file(
        "  - point: { what: Swivel, size: 12 mm, mass: 1 kg }\n  - point: { what: swivel, size: 1.2 cm, mass: 2 kg }\n",
      ),
      'mine.yaml: rows #2: "swivel 1.2 cm"; one row for each article is expected: rows #1 is the same',
    ],
    [
      "a curve told wrongly",
      file(
        "  - point: { what: swivel, size: 12 mm, mass: 1 kg }\n",
        "curves: { mine: { points: [[5 %, 10 %], [9 %, 20 %]], known: { at: 20 %, strain: { value: 12 % } } } }\n",
      ),
      "mine.yaml: curves.mine.known.strain: 12.0 %; first the curve's own strain there, 9.00 %, is expected",
    ],
    [
      "a curve of one point",
      file(
        "  - point: { what: swivel, size: 12 mm, mass: 1 kg }\n",
        "curves: { mine: { points: [[5 %, 10 %]], known: { at: 10 %, strain: { value: 5 % } } } }\n",
      ),
      /curves\.mine\.points: a list; at least two points/,
    ],
  ];

  it.each(wrong)("%s", (_title, text, line) => {
    const error = refusal(text);
    expect(error.message).not.toContain("\n");
    if (typeof line === "string") expect(error.message).toBe(line);
    else expect(error.message).toMatch(line);
  });

  it("whatever stands in it", () => {
    const scalar = fc.oneof(
      fc.string(),
      fc.double(),
      fc.constant(null),
      fc.boolean(),
      fc.constantFrom("10 mm", "2 kg/m", "none", "4 kN", "25 %", "nylon", "12"),
    );
    const key = fc.constantFrom(
      "grade",
      "size",
      "massPerLength",
      "stretch",
      "breakingLoad",
      "workingLoad",
      "density",
      "fibre",
      "lay",
      "diameter",
      "share",
      "of",
      "value",
      "curve",
      "__proto__",
      "constructor",
    );
    const { value } = fc.letrec((tie) => ({
      value: fc.oneof(
        { depthSize: "small" },
        scalar,
        fc.array(tie("value"), { maxLength: 3 }),
        fc.dictionary(key, tie("value"), { maxKeys: 6 }),
      ),
    }));
    const kind = fc.constantFrom("chain", "rope", "wire", "point", "cable");
    fc.assert(
      fc.property(fc.array(fc.dictionary(kind, value, { maxKeys: 2 }), { maxLength: 3 }), (rows) => {
        const error = refusal(JSON.stringify({ format: "rodebench/gear@1", rows }), true);
        if (error) expect(error.message).not.toMatch(/[\r\n]/);
      }),
      { seed: 41, numRuns: 2000 },
    );
    fc.assert(
      fc.property(fc.string({ maxLength: 200 }), (text) => {
        expect(refusal(text)).toBeInstanceOf(InputError);
      }),
      { seed: 42, numRuns: 1000 },
    );
  });
});

function refusal(text: string): InputError;
function refusal(text: string, mayPass: true): InputError | undefined;
function refusal(text: string, mayPass = false): InputError | undefined {
  try {
    readCatalogue(text, "mine.yaml");
  } catch (error) {
    if (error instanceof InputError) return error;
    throw error;
  }
  if (mayPass) return undefined;
  throw new Error("the file was taken");
}
