import { readFileSync } from "node:fs";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { find, settle } from "../../src/rode/index.ts";
import {
  canBeHad,
  lengthFor,
  mostThrust,
  planSeries,
  readSeries,
  rodeOut,
  type Series,
  speedFor,
} from "../../src/series/index.ts";

const TEXT = readFileSync("data/series/creek-trial.yaml", "utf8");
const series = readSeries(TEXT, "creek-trial.yaml");
const [creek, bank] = series.sites as [Series["sites"][number], Series["sites"][number]];
const [chain, mixed] = series.rodes as [Series["rodes"][number], Series["rodes"][number]];
const DEGREE = Math.PI / 180;

describe("a length for an angle", () => {
  it("gives that angle when the rode is settled with it, wherever it ends, and less of it a steeper one", () => {
    fc.assert(
      fc.property(
        fc.constantFrom(chain, mixed),
        fc.double({ min: 3, max: 12, noNaN: true }),
        fc.double({ min: 0.5, max: 20, noNaN: true }),
        fc.double({ min: 200, max: 3000, noNaN: true }),
        (rode, depth, degrees, load) => {
          const found = lengthFor(rode, series.boat, creek, depth, degrees * DEGREE, load);
          if (found.kind !== "length") return;
          const angleAt = (length: number) => {
            const settled = settle(rodeOut(rode, series.boat, creek, depth, length), { at: "anchor", newtons: load });
            return settled.kind === "settled" ? settled.anchor.angleToBottom / DEGREE : Number.NaN;
          };
          // 1e-6 degrees: the length is closed to rounding, and 1e-9 of it moves an angle by no more.
          expect(Math.abs(angleAt(found.length) - degrees)).toBeLessThan(1e-6);
          expect(angleAt(found.length * 0.97)).toBeGreaterThan(degrees);
        },
      ),
      { numRuns: 150 },
    );
  });

  it("is that of a catenary in water by hand: L = (T sin β − T sin α)/w with the rise closed", () => {
    // All below the surface but 1.35 m: with the roller at the water the closed form holds whole.
    const boat = { ...series.boat, rollerHeight: 1e-6 };
    const part = chain.parts[0]!;
    if (part.kind !== "line") throw new Error("a line");
    const w = part.massPerLength * (1 - creek.waterDensity / part.density) * 9.80665;
    const [T, alpha, rise] = [2000, 6 * DEGREE, 8];
    // cosh form: T_bow = T + w · rise, level part the same (Irvine 1981, recalled).
    const H = T * Math.cos(alpha);
    const V = Math.sqrt((T + w * rise) ** 2 - H ** 2);
    const found = lengthFor(chain, boat, creek, rise, alpha, T);
    expect(found.kind).toBe("length");
    // The chain's own stretch is below 1e-4 of it at these loads.
    if (found.kind === "length") expect(found.length).toBeCloseTo((V - T * Math.sin(alpha)) / w, 1);
  });

  it("too long for what is aboard is the length that would do, were the last line longer", () => {
    const found = lengthFor(mixed, series.boat, bank, 8, 1 * DEGREE, 2500);
    expect(found.kind).toBe("tooShort");
    if (found.kind !== "tooShort" || found.needed === null) return;
    const last = mixed.parts.at(-1)!;
    if (last.kind !== "line") throw new Error("a line");
    const longer = { name: "longer", parts: [mixed.parts[0]!, { ...last, length: 500 }] };
    const settled = settle(rodeOut(longer, series.boat, bank, 8, found.needed), { at: "anchor", newtons: 2500 });
    expect(settled.kind === "settled" && settled.anchor.angleToBottom / DEGREE).toBeCloseTo(1, 6);
  });
});

describe("what can be had", () => {
  it("agrees with find, asked for the depth at which that length gives that angle", () => {
    for (const { had, load, angle } of planSeries(series).table) {
      if (had === null) continue;
      const found = find(had.rig, {
        unknown: { what: "depth" },
        goal: { goal: "angleToBottom", angle },
        pull: { at: "anchor", newtons: load },
      });
      expect(found.kind === "found" && found.value).toBeCloseTo(had.depth, 5);
    }
  });

  it("is refused for each thing that stands against it, with its figures", () => {
    const kinds = (changed: Partial<Series>, site = creek, depth = 6, angle = 6, load = 1500) => {
      const one = canBeHad({ ...series, ...changed }, chain, site, depth, angle * DEGREE, load);
      return one.kind === "had" ? ["had"] : one.against.map(({ kind }) => kind);
    };
    expect(kinds({})).toEqual(["had"]);
    expect(kinds({}, creek, 6, 6, 2700)).toEqual(["engineTooSmall"]);
    expect(kinds({}, creek, 6, 0.01, 2590)).toContain("rodeTooShort");
    expect(kinds({}, { ...creek, room: 20 })).toEqual(["noRoom"]);
    expect(kinds({ workingLoadShare: 0.05 })).toEqual(["pastWorkingLoad"]);
    expect(kinds({}, creek, 2.2)).toEqual(["tooShallow"]);
    expect(kinds({ workingLoadShare: 0.05 }, { ...creek, room: 20 }, 6, 6, 2700).sort()).toEqual([
      "engineTooSmall",
      "noRoom",
      "pastWorkingLoad",
    ]);
  });

  it("asks of the engine what is level at the anchor, on a level bottom with all of the rode lifted", () => {
    // The level part of the pull is the same all along a rode in still water.
    const one = canBeHad(series, chain, creek, 6, 10 * DEGREE, 2000);
    expect(one.kind === "had" && one.horizontal).toBeCloseTo(2000 * Math.cos(10 * DEGREE), 6);
  });
});

describe("engine speed", () => {
  it("gives each of the boat's points back, and between two the square of the speed runs evenly", () => {
    for (const { speed, newtons } of series.boat.thrust) expect(speedFor(series.boat, newtons)).toBeCloseTo(speed, 9);
    // 750 N at 20 Hz and 1600 N at 30 Hz: 1175 N at √((400 + 900)/2) Hz, by hand.
    expect(speedFor(series.boat, 1175)).toBeCloseTo(Math.sqrt(650), 9);
    expect(speedFor(series.boat, mostThrust(series.boat) + 1)).toBeNull();
  });
});

describe("the tide in a plan", () => {
  it("takes the depth away before the last pull where the water falls, and says at which pulls", () => {
    const shoal = readSeries(TEXT.replace("depth: [2 m, 7 m]", "depth: [0.5 m, 1 m]"), "shoal.yaml");
    const { pulls } = planSeries(shoal);
    const first = pulls.filter(({ day }) => day.site === "Creek mouth");
    expect(first[0]!.how.kind).toBe("had");
    const last = first.at(-1)!.how;
    expect(last).toMatchObject({ kind: "notHad", byTide: true, against: [{ kind: "tooShallow" }] });
    // The boat draws 1.75 m and wants 0.5 m under her; charted at most 1 m: a level of 1.25 m or more, by hand.
    for (const { level, how } of first) expect(how.kind, `${level}`).toBe(level! >= 1.25 ? "had" : "notHad");
  });

  it("warns where it moves the angle by more than the gauge sees: by settling at both depths", () => {
    const { pulls } = planSeries(series);
    let warned = 0;
    for (const { how, at, day, level } of pulls) {
      if (how.kind !== "had" || day.site !== "Outer bank") continue;
      const said = how.warnings.find(({ kind }) => kind === "tideMovesAngle");
      warned += said === undefined ? 0 : 1;
      const later = pulls.find((one) => one.day === day && Math.abs(one.at - at - series.pullTime) < 1)?.level;
      if (later === undefined || later === null) continue;
      const moved = settle(
        { ...how.at.rig, setting: { ...how.at.rig.setting, depth: how.at.depth + later - level! } as never },
        { at: "anchor", newtons: how.loads.at(-1)!.load },
      );
      const by = moved.kind === "settled" ? moved.anchor.angleToBottom - how.at.angleToBottom : Number.NaN;
      // The plan goes by the slope: within a tenth of what settling gives.
      if (said?.kind === "tideMovesAngle") expect(said.by / by).toBeCloseTo(1, 0);
      else expect(Math.abs(by)).toBeLessThan(1.1 * series.gaugeU);
    }
    expect(warned).toBeGreaterThan(0);
  });
});
