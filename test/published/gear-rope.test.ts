/** Rope and wire against what is printed of them: seen, computed or recalled, as each check says. */
import { describe, expect, it } from "vitest";
import { catalogue, findPoint, findRope, findWire, strainUnder } from "../../src/gear/index.ts";

const POUND_FORCE = 4.4482216152605;
const POUND = 0.45359237;
const FOOT = 0.3048;
const TONNE_FORCE = 9806.65;
const rope = (fibre: string, lay: string, diameter: string) => findRope({ fibre, lay, diameter }, catalogue, "rope");

describe("three-strand nylon by the inch (a dealer's table, seen)", () => {
  const table: [string, number, number][] = [
    ["1/4 in", 1.5, 1490],
    ["5/16 in", 2.5, 2300],
    ["3/8 in", 3.5, 3340],
    ["7/16 in", 5.0, 4500],
    ["1/2 in", 6.5, 5750],
    ["9/16 in", 8.15, 7200],
    ["5/8 in", 10.5, 9350],
    ["3/4 in", 14.5, 12_800],
    ["7/8 in", 20.0, 18_000],
  ];
  it.each(table)(
    "%s: its mass is used, its strength kept, and none higher used",
    (diameter, poundsPerHundredFeet, minimum) => {
      const row = rope("polyamide", "three-strand", diameter);
      expect((row.massPerLength * 100 * FOOT) / POUND).toBeCloseTo(poundsPerHundredFeet, 9);
      const loads = row.figures.breakingLoad!.map((f) => f.value / POUND_FORCE);
      expect(loads.some((load) => Math.abs(load - minimum) < 1e-6)).toBe(true);
      expect(loads[0]).toBeLessThanOrEqual(minimum + 1e-6);
      expect(Math.min(...loads)).toBe(loads[0]);
    },
  );

  it("a second table's averages (3/8 in 3700, 1/2 in 6400, 5/8 in 10,400 lbf, seen) are kept beside, 11 % higher", () => {
    for (const [diameter, average] of [
      ["3/8 in", 3700],
      ["1/2 in", 6400],
      ["5/8 in", 10_400],
    ] as const) {
      const row = rope("polyamide", "three-strand", diameter);
      expect(row.figures.breakingLoad!.some((f) => Math.abs(f.value / POUND_FORCE - average) < 1e-6)).toBe(true);
    }
  });
});

describe("metric sizes not seen in a table", () => {
  it("of nylon follow the inch sizes by diameter squared (computed), to the digits written", () => {
    const inch = ["1/4 in", "5/16 in", "3/8 in", "7/16 in", "1/2 in", "9/16 in", "5/8 in", "3/4 in", "7/8 in"].map(
      (d) => rope("polyamide", "three-strand", d),
    );
    const strength = [1490, 2300, 3340, 4500, 5750, 7200, 9350, 12_800, 18_000];
    const mean = (values: number[]) => values.reduce((sum, v) => sum + v, 0) / values.length;
    const stress = mean(inch.map((row, i) => (strength[i]! * POUND_FORCE) / row.diameter ** 2));
    const weight = mean(inch.map((row) => row.massPerLength / row.diameter ** 2));
    for (const d of [8, 10, 12, 14, 16, 18, 20, 24]) {
      const row = rope("polyamide", "three-strand", `${d} mm`);
      const computed = row.figures.breakingLoad!.find((f) => f.basis === "computed")!.value;
      // Three digits are written in the data: half of the last is at most 0.5 %.
      expect(Math.abs(computed / (stress * (d / 1000) ** 2) - 1)).toBeLessThan(0.005);
      expect(Math.abs(row.massPerLength / (weight * (d / 1000) ** 2) - 1)).toBeLessThan(0.005);
    }
  });

  it("agree with ISO 1140 (recalled, low confidence) on weight to 6 %, take its strengths, and say how far they are doubted", () => {
    const iso: [number, number, number][] = [
      [8, 40, 13.2],
      [10, 62, 20.4],
      [12, 89, 29.4],
      [14, 122, 40.2],
      [16, 158, 52.0],
      [18, 200, 65.7],
      [20, 245, 81.4],
      [24, 355, 118],
    ];
    for (const [d, ktex, kilonewtons] of iso) {
      const row = rope("polyamide", "three-strand", `${d} mm`);
      expect(Math.abs((row.massPerLength * 1000) / ktex - 1)).toBeLessThan(0.06);
      expect(row.breakingLoad! / 1000).toBeCloseTo(kilonewtons, 9);
      // A fifth between the two figures, evenly likely: some 13 %.
      expect(row.uncertainty.breakingLoad!).toBeGreaterThan(0.1);
    }
  });
});

describe("polyester, BS 4928 column of Mooring Equipment Guidelines table 6.5 (seen)", () => {
  it.each([
    ["8 mm", 1.0],
    ["10 mm", 1.6],
    ["12 mm", 2.3],
    ["14 mm", 3.2],
    ["16 mm", 4.1],
    ["18 mm", 5.1],
    ["20 mm", 6.3],
    ["22 mm", 7.6],
    ["24 mm", 9.5],
  ])("%s breaks at %s tonnes", (diameter, tonnes) => {
    expect(rope("polyester", "three-strand", diameter).breakingLoad! / TONNE_FORCE).toBeCloseTo(tonnes, 9);
  });
});

describe("double-braided nylon, UFC 4-159-03 table 6-8 (seen)", () => {
  // Diameter in, average break strength and AE in 1e5 N.
  const table: [number, number, number][] = [
    [1.0, 1.495, 5.29],
    [1.1, 2.002, 7.09],
    [1.2, 2.313, 8.19],
    [1.3, 2.624, 9.29],
    [1.4, 3.292, 11.65],
    [1.6, 4.048, 14.33],
  ];

  it("AE is 3.54 times the breaking strength in every row", () => {
    // Both columns are rounded to 1e3 N of some 1e5 N: 0.3 %.
    for (const [, breaking, ae] of table) expect(Math.abs(ae / breaking / 3.54 - 1)).toBeLessThan(0.003);
  });

  it("our curve, wet, ends where that stiffness does: 85 % of the strength at 24 % of strain", () => {
    const row = rope("polyamide", "double-braid", "14 mm");
    const strain = strainUnder(row.stretch, row.wetBreakingLoad!);
    expect(row.wetBreakingLoad! / row.breakingLoad!).toBeCloseTo(0.85, 12);
    // 1 %: the last point is written to two digits.
    expect(Math.abs(row.wetBreakingLoad! / row.breakingLoad! / strain / 3.54 - 1)).toBeLessThan(0.01);
  });

  it("the strengths scaled from it are kept, though the lower ones are used", () => {
    const stress = table.reduce((sum, [d, f]) => sum + (f * 1e5) / (d * 0.0254) ** 2, 0) / table.length;
    for (const d of [10, 12, 14, 16, 20]) {
      const row = rope("polyamide", "double-braid", `${d} mm`);
      const kept = row.figures.breakingLoad!.find((f) => f.source === "ufc-4-159-03")!.value;
      expect(Math.abs(kept / (stress * (d / 1000) ** 2) - 1)).toBeLessThan(0.005);
      expect(row.breakingLoad!).toBeLessThan(kept);
    }
  });
});

describe("stretch of rope at a fifth of its strength", () => {
  it("wet three-strand nylon: 7/8 in by 15 ft stretched 19 in at 3600 lbf, 18 % of 20,000 lbf dry (a maker's talk, seen)", () => {
    const row = rope("polyamide", "three-strand", "12 mm");
    // 19 in of 180 in; the source prints whole inches: 2.6 %.
    expect(Math.abs(strainUnder(row.stretch, 0.18 * row.breakingLoad!) / (19 / 180) - 1)).toBeLessThan(0.026);
  });

  it("double-braid nylon: 6 % to 9 % (rule of thumb, recalled)", () => {
    const row = rope("polyamide", "double-braid", "12 mm");
    const strain = strainUnder(row.stretch, 0.2 * row.breakingLoad!);
    expect(strain).toBeGreaterThan(0.06);
    expect(strain).toBeLessThan(0.09);
  });

  it("at break no rope stretches more than new rope does: 55, 35, 30 and 30 % (US Navy training manual, table 4-6, seen)", () => {
    const limits: [string, string, number][] = [
      ["polyamide", "three-strand", 0.55],
      ["polyester", "three-strand", 0.35],
      ["polyamide", "double-braid", 0.3],
      ["polyester", "double-braid", 0.3],
    ];
    for (const [fibre, lay, limit] of limits) {
      const row = rope(fibre, lay, "12 mm");
      expect(strainUnder(row.stretch, row.wetBreakingLoad ?? row.breakingLoad!)).toBeLessThan(limit);
    }
  });

  it("nylon gives more than polyester, and three-strand more than braid", () => {
    const at = (fibre: string, lay: string) => {
      const row = rope(fibre, lay, "12 mm");
      return strainUnder(row.stretch, 0.2 * row.breakingLoad!);
    };
    expect(at("polyamide", "three-strand")).toBeGreaterThan(at("polyamide", "double-braid"));
    expect(at("polyamide", "double-braid")).toBeGreaterThan(at("polyester", "three-strand"));
    expect(at("polyester", "three-strand")).toBeGreaterThan(at("polyester", "double-braid"));
  });
});

describe("densities (handbook values, recalled) and buoyancy in 1025 kg/m³ (computed)", () => {
  it("nylon keeps 0.100877 and polyester 0.257246 of its weight in sea water", () => {
    expect(1 - 1025 / rope("polyamide", "three-strand", "12 mm").density).toBeCloseTo(0.100877, 6);
    expect(1 - 1025 / rope("polyester", "three-strand", "12 mm").density).toBeCloseTo(0.257246, 6);
  });
});

describe("wire", () => {
  it("7x19, FAA AC 43.13-1B table 7-3 (seen): 1/4 in breaks at 7000 lbf zinc coated, 6400 lbf stainless", () => {
    const breaks = (material: string, diameter: string) =>
      findWire({ material, construction: "7x19", diameter }, catalogue, "wire").breakingLoad! / POUND_FORCE;
    const table: [string, number, number][] = [
      ["1/8 in", 2000, 1760],
      ["5/32 in", 2800, 2400],
      ["3/16 in", 4200, 3700],
      ["7/32 in", 5600, 5000],
      ["1/4 in", 7000, 6400],
      ["5/16 in", 9800, 9000],
      ["3/8 in", 14_400, 12_000],
    ];
    for (const [diameter, galvanised, stainless] of table) {
      expect(breaks("galvanised", diameter)).toBeCloseTo(galvanised, 6);
      expect(breaks("stainless", diameter)).toBeCloseTo(stainless, 6);
    }
  });

  it("stretches as a maker's factors say (seen): strain % = lbf · G / in², G 7.79e-6 for stainless 1x19", () => {
    const factors: [string, string, number][] = [
      ["stainless", "1x19", 7.79e-6],
      ["stainless", "7x19", 1.62e-5],
      ["galvanised", "7x19", 1.4e-5],
    ];
    for (const [material, construction, G] of factors) {
      const row = findWire({ material, construction, diameter: "1/4 in" }, catalogue, "wire");
      const strain = strainUnder(row.stretch, 1000 * POUND_FORCE);
      // Modulus and area factor are written to four digits: 0.1 %.
      expect(Math.abs(strain / ((1000 * G) / 0.25 ** 2 / 100) - 1)).toBeLessThan(0.001);
    }
  });

  it("of a metal area by the strand's geometry: 19 wires of a fifth, 133 of a fifteenth of the diameter (computed)", () => {
    expect((19 / 25) * (Math.PI / 4)).toBeCloseTo(0.5969, 4);
    expect((133 / 225) * (Math.PI / 4)).toBeCloseTo(0.4643, 4);
    const row = findWire({ material: "stainless", construction: "1x19", diameter: "8 mm" }, catalogue, "wire");
    // 4 % is added for the lay; recalled weights of the inch sizes give 4.9e-3 to 5.1e-3 kg/m per mm².
    expect(row.massPerLength / 64).toBeCloseTo(0.5969 * 7.95e-3 * 1.04, 4);
  });
});

describe("shackles (a rigging dealer's table, seen): half a ton at 1/4 in to 4 3/4 tons at 3/4 in, six times that to break", () => {
  it.each([
    ["1/4 in", 0.5],
    ["5/16 in", 0.75],
    ["3/8 in", 1],
    ["7/16 in", 1.5],
    ["1/2 in", 2],
    ["5/8 in", 3.25],
    ["3/4 in", 4.75],
  ])("%s: %s tons of 2000 lbf", (size, tons) => {
    const row = findPoint({ what: "bow shackle", size }, catalogue, "joint");
    expect(row.workingLoad! / POUND_FORCE / 2000).toBeCloseTo(tons, 9);
    expect(row.breakingLoad! / row.workingLoad!).toBeCloseTo(6, 12);
  });
});
