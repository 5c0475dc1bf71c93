import { describe, expect, it } from "vitest";
import { catalogue, findChain, findPoint, findRope, findWire, rowsOfSize } from "../../src/gear/index.ts";
import { parseQuantity } from "../../src/quantity/index.ts";

describe("finding chain", () => {
  it("takes 3/8 in and 10 mm for two chains", () => {
    const inch = findChain({ grade: "30", size: "3/8 in" }, catalogue, "rode #1.chain");
    const short = findChain({ grade: "30", size: "10 mm", standard: "DIN 766" }, catalogue, "rode #1.chain");
    const ten = findChain({ grade: "40", size: "10 mm" }, catalogue, "rode #1.chain");
    expect([inch.name, short.name, ten.name]).toEqual([
      "chain 3/8 in grade 30",
      "chain 10 mm grade 30 DIN 766",
      "chain 10 mm grade 40 ISO 4565",
    ]);
    expect(() => findChain({ grade: "40", size: "3/8 in" }, catalogue, "rode #1.chain")).toThrow(
      /rode #1\.chain\.size: "3\/8 in" of grade 40; .*nearest: .*10 mm grade 40 ISO 4565/,
    );
    expect(() => findChain({ grade: "30", size: "9.5 mm" }, catalogue, "rode #1.chain")).toThrow(
      /nearest: .*3\/8 in grade 30, chain 10 mm grade 30/,
    );
  });

  it("reads a size however it is written", () => {
    for (const size of ["3/8 in", '3/8"', "0.375 in", "0.38 in", "9.525 mm", 0.009525]) {
      expect(findChain({ grade: "30", size }, catalogue, "chain").name).toBe("chain 3/8 in grade 30");
    }
    for (const size of ["10 mm", "1 cm", "0.010 m", "10.2 mm", 0.01]) {
      expect(findChain({ grade: "30", size }, catalogue, "chain").name).toBe("chain 10 mm grade 30 ISO 4565");
    }
    expect(() => findChain({ grade: "30", size: "10.21 mm" }, catalogue, "chain")).toThrow(
      /nearest: chain 10 mm grade 30/,
    );
  });

  it("reads a grade however it is marked", () => {
    for (const grade of ["43", 43, "G43", "grade 43", " g 43 "]) {
      expect(findChain({ grade, size: "5/16 in" }, catalogue, "chain").name).toBe("chain 5/16 in grade 43");
    }
    expect(() => findChain({ grade: "50", size: "10 mm" }, catalogue, "chain")).toThrow(
      /^chain\.grade: "50"; one of 30, 40, 43, 70 is expected$/,
    );
  });

  it("chooses links by their standard where the designation is one", () => {
    expect(findChain({ grade: "40", size: "14 mm", standard: "DIN 766" }, catalogue, "chain").link.pitch).toBe(0.041);
    expect(() => findChain({ grade: "30", size: "13 mm", standard: "ISO 4565" }, catalogue, "chain")).toThrow(
      /nearest: .*12 mm grade 30 ISO 4565/,
    );
  });
});

describe("finding rope, wire and joints", () => {
  it("knows the names of the trade", () => {
    expect(findRope({ fibre: "Nylon", lay: "3-strand", diameter: "1/2 in" }, catalogue, "rope").name).toBe(
      "polyamide three-strand 1/2 in",
    );
    expect(findRope({ fibre: "polyester", lay: "braid", diameter: "12 mm" }, catalogue, "rope").name).toBe(
      "polyester double-braid 12 mm",
    );
    expect(
      findWire({ material: "galvanized", construction: "7 × 19", diameter: "1/4 in" }, catalogue, "wire").name,
    ).toBe("galvanised wire 7x19 1/4 in");
    expect(findPoint({ what: "Bow shackle", size: "10 mm" }, catalogue, "joint").name).toBe("bow shackle 10 mm");
  });

  it("says what there is when there is none", () => {
    expect(() => findRope({ fibre: "hemp", lay: "laid", diameter: "12 mm" }, catalogue, "rode #2.rope")).toThrow(
      'rode #2.rope.fibre: "hemp"; one of polyamide, polyester is expected',
    );
    expect(() => findRope({ fibre: "nylon", lay: "plaited", diameter: "12 mm" }, catalogue, "rope")).toThrow(
      'rope.lay: "plaited"; one of three-strand, double-braid is expected',
    );
    expect(() => findRope({ fibre: "nylon", lay: "laid", diameter: "13 mm" }, catalogue, "rope")).toThrow(
      /nearest: polyamide three-strand 1\/2 in, polyamide three-strand 12 mm$/,
    );
    expect(() =>
      findWire({ material: "stainless", construction: "6x36", diameter: "8 mm" }, catalogue, "wire"),
    ).toThrow('wire.construction: "6x36"; one of 1x19, 7x19 is expected');
    expect(() => findPoint({ what: "carabiner", size: "8 mm" }, catalogue, "joint")).toThrow(
      'joint.what: "carabiner"; one of bow shackle, swivel is expected',
    );
    expect(() => rowsOfSize(catalogue.rows, "9 mm", "--size")).toThrow(/^--size: "9 mm"; .*nearest: 3\/8 in/);
  });
});

describe("every row of the catalogue", () => {
  it("is found by its own designation, as text and in metres", () => {
    for (const row of catalogue.rows) {
      for (const size of [row.size, parseQuantity(row.size, "length", "size")]) {
        if (row.kind === "chain") expect(findChain({ ...row, size }, catalogue, "at")).toBe(row);
        if (row.kind === "rope") expect(findRope({ ...row, diameter: size }, catalogue, "at")).toBe(row);
        if (row.kind === "wire") expect(findWire({ ...row, diameter: size }, catalogue, "at")).toBe(row);
        if (row.kind === "point") expect(findPoint({ ...row, size }, catalogue, "at")).toBe(row);
      }
    }
  });
});
