/** Between which values each field of a rig file is taken, as its refusal says them. */
import { describe, expect, it } from "vitest";
import { type Rig, readRig } from "../../src/rode/index.ts";
import { readValue } from "../../src/rode/rig-file-value.ts";
import { boundsOf, currentValue, longestLine, readUnknown, withValue } from "../../src/rode/unknown.ts";

type Kind = Parameters<typeof readValue>[1];
const ABOVE_ZERO = 1e-12;

/** The least and the most that is taken, as typed, and one just beyond each. */
const table: readonly [kind: Kind, least: string, most: string, below: string, beyond: string][] = [
  ["length", `${ABOVE_ZERO} m`, "100 km", "0 m", "100.001 km"],
  ["rise", "-10 km", "100 km", "-10.001 km", "100.001 km"],
  ["height", "0 m", "10 km", "-0.001 m", "10.001 km"],
  ["massPerLength", `${ABOVE_ZERO} kg/m`, "10000 kg/m", "0 kg/m", "10001 kg/m"],
  ["mass", `${ABOVE_ZERO} kg`, "10000 t", "0 kg", "10001 t"],
  ["lineDensity", "100 kg/m3", "23000 kg/m3", "99.9 kg/m3", "23001 kg/m3"],
  ["pointDensity", "1 kg/m3", "23000 kg/m3", "0.99 kg/m3", "23001 kg/m3"],
  ["waterDensity", "900 kg/m3", "1400 kg/m3", "899 kg/m3", "1401 kg/m3"],
  ["stiffness", `${ABOVE_ZERO} N`, "1e12 N", "0 N", "1.001e12 N"],
  ["load", `${ABOVE_ZERO} N`, "1e12 N", "0 N", "1.001e12 N"],
  ["strain", `${ABOVE_ZERO}`, "10", "0", "10.01"],
  ["slope", "-45 deg", "45 deg", "-45.001 deg", "45.001 deg"],
  ["friction", "0", "3", "-0.001", "3.001"],
  ["current", "-10 m/s", "10 m/s", "-10.01 m/s", "10.01 m/s"],
  ["diameter", `${ABOVE_ZERO} m`, "5 m", "0 m", "5.001 m"],
  ["drag", "0", "10", "-0.001", "10.01"],
  ["frictionU", "0", "1", "-0.001", "1.001"],
  ["slopeU", "0 deg", "10 deg", "-0.001 deg", "10.001 deg"],
  ["densityU", "0 kg/m3", "100 kg/m3", "-0.1 kg/m3", "100.1 kg/m3"],
  ["currentU", "0 m/s", "5 m/s", "-0.01 m/s", "5.01 m/s"],
  ["relative", "0 %", "50 %", "-0.1 %", "50.1 %"],
];

describe("a field of a rig file", () => {
  it.each(table)("%s is taken from %s to %s", (kind, least, most, below, beyond) => {
    for (const text of [least, most]) expect(() => readValue(text, kind, "rig"), text).not.toThrow();
    for (const text of [below, beyond]) expect(() => readValue(text, kind, "rig"), text).toThrow("is expected");
  });

  it("of a line and of a weight is its own, in SI", () => {
    const { rode } = readRig(
      `format: rodebench/rig@1
setting: { medium: air, rise: 9 m }
rode:
  - line:
      name: Long line
      length: 21 m
      massPerLength: 120 g/m
      density: 1.14 t/m3
      diameter: 13 mm
      stiffness: 90 kN
      drag: { across: 1.3, along: 0.07 }
      workingLoad: 4 kN
      breakingLoad: 17 kN
      material: rope
  - weight: { name: Kellet, mass: 15 kg, density: 7800 kg/m3, workingLoad: 6 kN, breakingLoad: 19 kN }
  - line: { length: 3 m, massPerLength: 0.5 kg/m, density: 7850 kg/m3, stretch: [[0, 0], [0.02, 1 kN], [0.05, 7 kN]] }
`,
      "rig",
    );
    expect(rode).toEqual([
      {
        kind: "line",
        name: "Long line",
        length: 21,
        massPerLength: 0.12,
        density: 1140,
        diameter: 0.013,
        stretch: { kind: "linear", stiffness: 90_000 },
        drag: { across: 1.3, along: 0.07 },
        workingLoad: 4000,
        breakingLoad: 17_000,
        material: "rope",
      },
      { kind: "point", name: "Kellet", mass: 15, density: 7800, workingLoad: 6000, breakingLoad: 19_000 },
      {
        kind: "line",
        name: "line",
        length: 3,
        massPerLength: 0.5,
        density: 7850,
        stretch: {
          kind: "curve",
          points: [
            [0.02, 1000],
            [0.05, 7000],
          ],
        },
      },
    ]);
  });
});

describe("an unknown of a rig", () => {
  // 20, 15 and 7 m with a weight between the first two; 6 m deep, the roller 1.5 m over the water.
  const rig = (setting: string): Rig =>
    readRig(
      `format: rodebench/rig@1
setting: ${setting}
rode:
  - line: { length: 20 m, massPerLength: 1 kg/m, density: 7850 kg/m3 }
  - weight: { mass: 15 kg, density: 7850 kg/m3 }
  - line: { length: 15 m, massPerLength: 1 kg/m, density: 7850 kg/m3 }
  - line: { length: 7 m, massPerLength: 0.1 kg/m, density: 1140 kg/m3 }
`,
      "rig",
    );
  const afloat = rig("{ medium: water, depth: 6 m, rollerHeight: 1.5 m }");
  const ashore = rig("{ medium: air, rise: 9 m }");
  const lengthsOf = ({ rode }: Rig) => rode.map((part) => (part.kind === "line" ? part.length : null));

  it("stands where the rig has it, and is put there", () => {
    for (const [text, now, next, lengths] of [
      ["length:1", 20, 25, [25, null, 15, 7]],
      ["length:4", 7, 9, [20, null, 15, 9]],
      ["place:2", 20, 12, [12, null, 23, 7]],
      // 42 m over 7.5 m; at 8 the whole is 60 m, the longest 38.
      ["scope", 5.6, 8, [38, null, 15, 7]],
    ] as const) {
      const unknown = readUnknown(text, "unknown");
      expect(currentValue(afloat, unknown), text).toBeCloseTo(now, 12);
      const made = withValue(afloat, unknown, next);
      expect(lengthsOf(made), text).toEqual(lengths);
      expect(currentValue(made, unknown), text).toBeCloseTo(next, 12);
      expect(made.setting, text).toEqual(afloat.setting);
    }
    const heavier = withValue(afloat, { what: "mass", part: 2 }, 31);
    expect(heavier.rode.map((part) => (part.kind === "point" ? part.mass : null))).toEqual([null, 31, null, null]);
    expect(currentValue(heavier, { what: "mass", part: 2 })).toBe(31);
    expect(withValue(afloat, { what: "depth" }, 8).setting).toEqual({ ...afloat.setting, depth: 8 });
    expect(withValue(afloat, { what: "rise" }, 8).setting).toEqual({ ...afloat.setting, depth: 6.5 });
    expect(withValue(ashore, { what: "rise" }, 8).setting).toEqual({ ...ashore.setting, rise: 8 });
    expect([currentValue(afloat, { what: "depth" }), currentValue(afloat, { what: "rise" })]).toEqual([6, 7.5]);
    expect(currentValue(ashore, { what: "rise" })).toBe(9);
    expect(withValue(afloat, { what: "pull" }, 8)).toEqual(afloat);
  });

  it("is looked for between bounds that follow from the rest of the rode", () => {
    for (const [unknown, low, high] of [
      // Any line, unless the others alone are shorter than the rise: 42 m whole, a thousand of that and the rise.
      [{ what: "length", part: 1 }, 0, 1e3 * (7.5 + 42)],
      [{ what: "scope" }, 22 / 7.5, (49_500 + 22) / 7.5],
      [{ what: "depth" }, 0.042, 40.5],
      [{ what: "rise" }, 1.542, 42],
      [{ what: "place", part: 2 }, 0, 35],
      [{ what: "mass", part: 2 }, 0, 1e5],
      [{ what: "pull" }, 1e-3, 1e9],
    ] as const) {
      const [from, to] = boundsOf(afloat, unknown);
      expect(from, unknown.what).toBeGreaterThanOrEqual(low - 1e-12);
      expect(from - low, unknown.what).toBeLessThan(1e-4);
      expect(to / high, unknown.what).toBeCloseTo(1, 5);
      expect(to, unknown.what).toBeLessThanOrEqual(high * (1 + 1e-12));
    }
    expect(boundsOf(ashore, { what: "rise" })).toEqual([expect.closeTo(0.042, 12), 42]);
    const short = withValue(withValue(afloat, { what: "length", part: 1 }, 2), { what: "length", part: 3 }, 3);
    // 2 and 3 m of the others: at least 2.5 m to climb 7.5.
    expect(boundsOf(short, { what: "length", part: 4 })[0]).toBeCloseTo(2.5, 6);
  });

  it("has the line nearest the bow for the longest of equals, and never a point", () => {
    expect(longestLine(afloat)).toBe(1);
    expect(longestLine(withValue(afloat, { what: "length", part: 3 }, 20))).toBe(3);
    expect(longestLine({ ...afloat, rode: afloat.rode.slice(1) })).toBe(2);
    expect(longestLine(withValue(afloat, { what: "length", part: 4 }, 20.5))).toBe(4);
  });
});
