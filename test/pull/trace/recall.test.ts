import { describe, expect, it } from "vitest";
import { recallOf, seedsFrom, share, within } from "./recall.ts";

/**
 * Simulated pulls with known truth: 10 readings a second, surge of up to 3 % of the load, noise of up to 1 % of the
 * highest load, drift, up to five spikes, creep of up to 4 %, gusts, drags that lose 18 to 60 %. The seeds here are
 * not those the settings were chosen on (1 to 200). Bounds leave about two standard deviations of counting below the
 * figures in docs/reduction-of-a-pull.md.
 */
const loadOnly = recallOf(seedsFrom(10_001, 150), {});
const tracked = recallOf(seedsFrom(20_001, 150), { track: true });
const quiet = recallOf(seedsFrom(30_001, 150), { drags: false });

describe("simulated pulls with known truth", () => {
  it("finds 96 of 100 plateaus, and no more than one false in ten pulls", () => {
    for (const r of [loadOnly, tracked]) {
      expect(share(r.plateau)).toBeGreaterThan(0.96);
      expect(r.plateau.falseAlarms / r.pulls).toBeLessThan(0.1);
    }
  });

  it("finds 95 of 100 drags from the load alone", () => {
    expect(share(loadOnly.drag)).toBeGreaterThan(0.95);
    expect(loadOnly.drag.falseAlarms / loadOnly.pulls).toBeLessThan(0.05);
  });

  it("finds 97 of 100 drags with a track", () => {
    expect(share(tracked.drag)).toBeGreaterThan(0.97);
    expect(tracked.drag.falseAlarms / tracked.pulls).toBeLessThan(0.05);
  });

  it("hardly ever calls a drag where none was, gusts and slow easings there", () => {
    expect(quiet.drag.there).toBe(0);
    expect(quiet.drag.falseAlarms / quiet.pulls).toBeLessThan(0.05);
  });

  it("finds every tall gust as a peak and every spike as a spike", () => {
    expect(share(loadOnly.peak)).toBeGreaterThan(0.97);
    expect(share(loadOnly.spike)).toBeGreaterThan(0.98);
    expect(loadOnly.spike.falseAlarms).toBe(0);
  });

  it("states means whose ± covers the truth as often as it says", () => {
    // 95 % at two standard uncertainties for a normal error; counting 480 plateaus scatters that by 1 %.
    expect(within(loadOnly.meanErrors, 2)).toBeGreaterThan(0.95);
    expect(within(loadOnly.meanErrors, 3)).toBeGreaterThan(0.97);
  });

  it("states a drift of the zero whose ± covers the truth as often as it says", () => {
    expect(share(loadOnly.zeroFound)).toBeGreaterThan(0.97);
    // Few slack seconds make a t-like tail: some less than 95 %.
    expect(within(loadOnly.driftErrors, 2)).toBeGreaterThan(0.89);
    expect(within(loadOnly.driftErrors, 3)).toBeGreaterThan(0.96);
  });

  it("finds the ends of plateaus within two seconds 92 times out of 100", () => {
    expect(within(loadOnly.endErrors, 2)).toBeGreaterThan(0.92);
  });
});
