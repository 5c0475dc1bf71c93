import { describe, expect, it } from "vitest";
import { sedimentClasses, sedimentClassOf } from "../../src/record/index.ts";

/** Classes of a standard and the upper bound of each, mm. */
const boundsOf = (standard: string) =>
  sedimentClasses.filter((c) => c.code.startsWith(`${standard}:`)).map((c) => [c.code.split(":")[1], c.below_mm]);

describe("classes of sediment", () => {
  it("are those of ISO 14688-1, table of size fractions (recalled)", () => {
    expect(boundsOf("iso-14688")).toEqual([
      ["clay", 0.002],
      ["fine-silt", 0.0063],
      ["medium-silt", 0.02],
      ["coarse-silt", 0.063],
      ["fine-sand", 0.2],
      ["medium-sand", 0.63],
      ["coarse-sand", 2],
      ["fine-gravel", 6.3],
      ["medium-gravel", 20],
      ["coarse-gravel", 63],
      ["cobble", 200],
      ["boulder", 630],
      ["large-boulder", Number.POSITIVE_INFINITY],
    ]);
  });

  it("are those of Wentworth (1922), powers of two of a millimetre (recalled)", () => {
    expect(boundsOf("wentworth")).toEqual([
      ["clay", 1 / 256],
      ["silt", 1 / 16],
      ["very-fine-sand", 1 / 8],
      ["fine-sand", 1 / 4],
      ["medium-sand", 1 / 2],
      ["coarse-sand", 1],
      ["very-coarse-sand", 2],
      ["granule", 4],
      ["pebble", 64],
      ["cobble", 256],
      ["boulder", Number.POSITIVE_INFINITY],
    ]);
  });

  it("leave no gap, and hold their lower bound but not their upper one", () => {
    for (const standard of ["iso-14688", "wentworth"] as const) {
      const classes = sedimentClasses.filter((c) => c.code.startsWith(`${standard}:`));
      expect(classes[0]!.from_mm).toBe(0);
      for (const [i, c] of classes.entries()) {
        if (i > 0) expect(c.from_mm).toBe(classes[i - 1]!.below_mm);
        expect(sedimentClassOf(c.from_mm, standard)).toBe(c);
        if (Number.isFinite(c.below_mm)) expect(sedimentClassOf(c.below_mm, standard)).toBe(classes[i + 1]);
      }
    }
    expect(sedimentClassOf(0.0625, "iso-14688")?.code).toBe("iso-14688:coarse-silt");
    expect(sedimentClassOf(0.2, "wentworth")?.code).toBe("wentworth:fine-sand");
    expect(sedimentClassOf(-1, "wentworth")).toBeUndefined();
  });
});
