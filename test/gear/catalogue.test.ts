import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { pack, packed, packedParts, packParts } from "../../scripts/pack-gear.ts";
import { catalogue, findChain, findPoint, findRope, findWire } from "../../src/gear/index.ts";

describe("the catalogue that comes with the program", () => {
  it("is packed from the data files as they stand", () => {
    expect(readFileSync(packed, "utf8"), "run: node --import tsx scripts/pack-gear.ts").toBe(pack());
    expect(readFileSync(packedParts, "utf8"), "run: node --import tsx scripts/pack-gear.ts").toBe(packParts());
  });

  it("names a source for every figure", () => {
    for (const row of catalogue.rows) {
      for (const [property, figures] of Object.entries(row.figures)) {
        expect(figures.length, `${row.name}: ${property}`).toBeGreaterThan(0);
        for (const figure of figures)
          expect(catalogue.sources[figure.source]?.cite, `${row.name}: ${property}`).toMatch(/\S{3}/);
      }
    }
  });

  it("gives an address for every source that was seen", () => {
    const seen = new Set(
      catalogue.rows
        .flatMap((row) => Object.values(row.figures).flat())
        .filter((f) => f.basis === "seen")
        .map((f) => f.source),
    );
    for (const key of seen) expect(catalogue.sources[key]!.address, key).toMatch(/^https?:\/\//);
  });

  it("states strength, weight and stretch of every row", () => {
    for (const row of catalogue.rows) {
      expect(row.figures.workingLoad, row.name).toBeDefined();
      expect(row.figures.breakingLoad, row.name).toBeDefined();
      expect(row.workingLoad!, row.name).toBeLessThanOrEqual(row.breakingLoad! / 3 + 1e-6);
      if (row.kind === "point") expect(row.mass, row.name).toBeGreaterThan(0);
      else {
        expect(row.massPerLength, row.name).toBeGreaterThan(0);
        expect(row.stretch.kind, row.name).toBe(row.kind === "rope" ? "curve" : "linear");
      }
    }
  });

  it("trusts a figure recalled alone less than one that was seen alone", () => {
    for (const row of catalogue.rows) {
      for (const [property, figures] of Object.entries(row.figures)) {
        if (property === "workingLoad" || property === "density" || figures.length > 1) continue;
        const u = row.uncertainty[property as keyof typeof row.uncertainty]!;
        if (figures[0]!.basis === "recalled") expect(u, `${row.name}: ${property}`).toBeGreaterThan(0.028);
      }
    }
  });

  it("holds the sizes of chain a tester meets", () => {
    for (const grade of ["30", "43", "70"]) {
      for (const size of ["1/4 in", "5/16 in", "3/8 in", "7/16 in", "1/2 in"])
        findChain({ grade, size }, catalogue, "chain");
    }
    for (const size of ["6 mm", "7 mm", "8 mm", "10 mm", "12 mm", "13 mm", "14 mm"])
      findChain({ grade: "30", size }, catalogue, "chain");
    for (const size of ["6 mm", "7 mm", "8 mm", "10 mm", "12 mm", "14 mm"])
      findChain({ grade: "40", size }, catalogue, "chain");
    // No source gives a 13 mm link of grade 40.
    expect(() => findChain({ grade: "40", size: "13 mm" }, catalogue, "chain")).toThrow(/nearest/);
  });

  it("holds three-strand and braid of both fibres, wire of both metals, shackles and swivels", () => {
    for (const fibre of ["polyamide", "polyester"]) {
      for (const lay of ["three-strand", "double-braid"]) {
        for (const diameter of [
          "3/8 in",
          "1/2 in",
          "5/8 in",
          "8 mm",
          "10 mm",
          "12 mm",
          "14 mm",
          "16 mm",
          "18 mm",
          "20 mm",
        ]) {
          findRope({ fibre, lay, diameter }, catalogue, "rope");
        }
      }
    }
    for (const diameter of ["1/4 in", "6 mm", "8 mm"])
      findWire({ material: "stainless", construction: "1x19", diameter }, catalogue, "wire");
    for (const material of ["stainless", "galvanised"])
      findWire({ material, construction: "7x19", diameter: "5/16 in" }, catalogue, "wire");
    for (const what of ["bow shackle", "swivel"]) findPoint({ what, size: "3/8 in" }, catalogue, "joint");
  });

  it("grows heavier and stronger with size within a family", () => {
    const families = new Map<string, typeof catalogue.rows>();
    for (const row of catalogue.rows) {
      const inches = row.size.includes("in");
      const family = `${row.name.replace(row.size, "").replace(/ (ISO|DIN) \d+/, "")} ${inches} ${row.kind === "chain" && row.link.pitch === 0.028}`;
      families.set(family, [...(families.get(family) ?? []), row]);
    }
    for (const [family, rows] of families) {
      const bySize = [...rows].sort((a, b) => a.nominal - b.nominal);
      for (let i = 1; i < bySize.length; i++) {
        const [less, more] = [bySize[i - 1]!, bySize[i]!];
        expect(more.breakingLoad!, `${family}: ${more.size}`).toBeGreaterThan(less.breakingLoad!);
        expect(weight(more), `${family}: ${more.size}`).toBeGreaterThan(weight(less));
      }
    }
  });

  it("keeps wet nylon weaker than dry, and polyester as it is", () => {
    for (const row of catalogue.rows) {
      if (row.kind !== "rope") continue;
      if (row.fibre === "polyamide") expect(row.wetBreakingLoad! / row.breakingLoad!).toBeCloseTo(0.85, 12);
      else expect(row.wetBreakingLoad).toBeUndefined();
    }
  });
});

function weight(row: (typeof catalogue.rows)[number]): number {
  return row.kind === "point" ? row.mass : row.massPerLength;
}
