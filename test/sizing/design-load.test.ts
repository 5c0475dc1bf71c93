/** Where the load of a plan stands: windage pulls horizontally at the bow, measured points at the end they were read. */
import { describe, expect, it } from "vitest";
import { type Boat, CALM_SURROUNDINGS, type Conditions, weather, windForce } from "../../src/sea/index.ts";
import { designLoad, type PlanLoad } from "../../src/sizing/index.ts";
import { plain, tern } from "../sea/demo.ts";

const boxed: Boat = {
  ...plain,
  windage: { kind: "areas", front: { area: 8, drag: 1, height: 10 }, side: { area: 20, drag: 1, height: 10 } },
};
const gusty: Conditions = {
  ...CALM_SURROUNDINGS,
  gust: { model: { kind: "kaimal", turbulence: "B" }, averaging: 600, duration: 3 },
};
const windOn = (boat: Boat, by: "windage" | "measured", conditions = CALM_SURROUNDINGS): PlanLoad => ({
  kind: "wind",
  boat,
  wind: { value: 12, u: 0.6 },
  by,
  conditions,
});

describe("the load a plan is made for", () => {
  it("by windage is horizontal: ½ρCAV² with no rode's weight in it", () => {
    const load = designLoad(windOn(boxed, "windage"));
    expect(load.at).toBe("horizontal");
    expect(load.mean.value).toBeCloseTo(windForce(boxed, 12, 0).resultant, 9);
    expect(load.peak).toEqual(load.mean);
    expect(load.peaked).toBe(false);
  });
  it("by windage in a gust has the gust's load for its peak", () => {
    const load = designLoad(windOn(boxed, "windage", gusty));
    const { steady, gust } = weather(boxed, { value: 12, u: 0.6 }, gusty).windage!;
    expect(load.at).toBe("horizontal");
    expect(load.mean).toEqual({ value: steady.value, u: steady.u });
    expect(load.peak).toEqual({ value: gust!.value, u: gust!.u });
    expect(load.peak.value).toBeGreaterThan(1.3 * load.mean.value);
    expect(load.peaked).toBe(true);
  });
  it("by points stands at the end they were read at", () => {
    for (const at of ["anchor", "bow"] as const) {
      const read: Boat = {
        ...plain,
        measured: [{ wind: 10, load: 900, at, uncertainty: {} }] as unknown as Boat["measured"],
      };
      const load = designLoad(windOn(read, "measured"));
      expect(load.at).toBe(at);
      // The square law from 10 m/s to 12.
      expect(load.mean.value).toBeCloseTo(900 * 1.44, 6);
      expect(load.peaked).toBe(false);
    }
    expect(designLoad(windOn(tern, "measured")).peaked).toBe(true);
  });
  it("of another wind is that of the same boat, with the wind's relative uncertainty", () => {
    const [one, two] = [designLoad(windOn(boxed, "windage")), designLoad(windOn(boxed, "windage"), 24)];
    expect(two.mean.value / one.mean.value).toBeCloseTo(4, 9);
    expect(two.mean.u / one.mean.u).toBeCloseTo(4, 6);
    expect(two.at).toBe("horizontal");
  });
  it("as stated is what was stated, at the end stated, in any wind", () => {
    const stated: PlanLoad = { kind: "stated", at: "anchor", mean: { value: 1500, u: 40 } };
    expect(designLoad(stated)).toEqual({ at: "anchor", mean: stated.mean, peak: stated.mean, peaked: false });
    expect(designLoad({ ...stated, peak: { value: 2000, u: 50 } }, 30)).toEqual({
      at: "anchor",
      mean: stated.mean,
      peak: { value: 2000, u: 50 },
      peaked: true,
    });
  });
});
