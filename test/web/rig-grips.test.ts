import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { roundAbove, roundBelow, ticks } from "../../src/numeric/index.ts";
import { settle, settleTraced, shapeOf } from "../../src/rode/index.ts";
import {
  depthOf,
  drawnTo,
  loadRange,
  nearestOn,
  paidOutLength,
  placeOf,
  slideRange,
  slidTo,
  withDepth,
  withLoad,
  withPaidOut,
} from "../../src/web/rig/grips.ts";
import { hungOn, movedPart, sliding, totalLength, withoutPart } from "../../src/web/rig/parts.ts";
import { exampleState, otherMedium, pullOf, type RigState } from "../../src/web/rig/state.ts";
import { fit as fitView, scaleBar, xMetres, xPx, yPx } from "../../src/web/rig/view.ts";

const kellet = { kind: "point", name: "kellet", mass: 15, density: 7850 } as const;
const withKellet: RigState = {
  ...exampleState,
  rig: { ...exampleState.rig, rode: hungOn(exampleState.rig.rode, 2, kellet) },
};

describe("a hand on the boat", () => {
  it("gives the load whose equilibrium stands where the boat was drawn to", () => {
    for (const span of [38.5, 39, 39.7, 40.2]) {
      const { load } = drawnTo(exampleState, span)!;
      const spanAt = (newtons: number) => {
        const settled = settle(exampleState.rig, { at: "bow", newtons });
        return settled.kind === "settled" ? settled.span : Number.NaN;
      };
      // A load of three digits: half a unit of the third is at most 0.5 % of it.
      expect(spanAt(0.995 * load.newtons)).toBeLessThan(span);
      expect(spanAt(1.005 * load.newtons)).toBeGreaterThan(span);
    }
  });

  it("stops at the ends of its range instead of losing the equilibrium", () => {
    const [least, most] = loadRange(exampleState.rig);
    expect(drawnTo(exampleState, 1)!.load.newtons).toBeGreaterThanOrEqual(least);
    expect(drawnTo(exampleState, 500)!.load.newtons).toBe(most);
    for (const at of ["bow", "anchor", "horizontal"] as const) {
      const state: RigState = { ...exampleState, load: { at, newtons: 900 } };
      for (const span of [0.5, 20, 36, 41, 200]) {
        const drawn = drawnTo(state, span);
        expect(drawn === null ? "none" : settle(drawn.rig, pullOf(drawn)).kind).toBe("settled");
      }
    }
  });

  it("raises a load too light to hold what hangs from the bow to the least that does", () => {
    const deep: RigState = {
      ...exampleState,
      rig: {
        ...exampleState.rig,
        setting: { ...exampleState.rig.setting, depth: 30 } as RigState["rig"]["setting"],
        rode: [{ ...exampleState.rig.rode[1]!, length: 45 } as RigState["rig"]["rode"][number]],
      },
    };
    const held = withLoad(deep, 1)!;
    expect(settle(held.rig, pullOf(held)).kind).toBe("settled");
    // Three digits: 2 % less is too little.
    expect(settle(held.rig, { at: "bow", newtons: 0.98 * held.load.newtons })).toMatchObject({
      cause: "lighterThanHanging",
    });
  });
});

describe("a hand on the seabed and on the rode", () => {
  it("keeps the depth within the rode's reach, and anything in between to the centimetre", () => {
    expect(depthOf(withDepth(exampleState, 9.128)!.rig)).toBe(9.13);
    expect(depthOf(withDepth(exampleState, -4)!.rig)).toBe(0.1);
    expect(depthOf(withDepth(exampleState, 1000)!.rig)).toBeLessThan(totalLength(exampleState.rig));
    const air: RigState = {
      ...exampleState,
      rig: { ...exampleState.rig, setting: otherMedium(exampleState.rig.setting) },
    };
    expect(depthOf(withDepth(air, 12)!.rig)).toBe(12);
  });

  it("pays out the line nearest the bow, and hauls it in no shorter than the rode can reach", () => {
    expect(paidOutLength(withPaidOut(exampleState, 22.5)!.rig)).toBe(22.5);
    const short = withPaidOut(
      { ...exampleState, rig: { ...exampleState.rig, rode: exampleState.rig.rode.slice(2) } },
      0.5,
    )!;
    expect(totalLength(short.rig)).toBeGreaterThan(8.2);
  });
});

describe("a weight on the rode", () => {
  it("hangs where the line was cut, slides between its neighbours, and leaves the line whole when it is taken off", () => {
    const { rode } = withKellet.rig;
    expect(sliding(rode)).toEqual([3]);
    expect(slideRange(withKellet.rig, 3)).toEqual([25, 40]);
    expect(placeOf(withKellet.rig, 3)).toBe(32.5);
    expect(placeOf(slidTo(withKellet, 3, 27)!.rig, 3)).toBe(27);
    expect(placeOf(slidTo(withKellet, 3, 300)!.rig, 3)).toBeLessThan(40);
    expect(totalLength(slidTo(withKellet, 3, 300)!.rig)).toBeCloseTo(40, 9);
    expect(withoutPart(rode, 3)).toEqual(exampleState.rig.rode);
    expect(slidTo(exampleState, 0, 5)).toBeNull();
  });

  it("is found again where it is drawn", () => {
    fc.assert(
      fc.property(fc.double({ min: 26, max: 39, noNaN: true }), (distance) => {
        const state = slidTo(withKellet, 3, distance)!;
        const traced = settleTraced(state.rig, pullOf(state));
        if (!("settled" in traced)) throw new Error("settles");
        const shape = shapeOf(traced, 60);
        const at = shape.points.find(({ part }) => part === 3)!;
        // Strokes of some 25 cm stand for the curve, and stretch is told evenly over each length of line.
        expect(Math.abs(nearestOn(shape, state.rig, at.x, at.z) - placeOf(state.rig, 3))).toBeLessThan(0.02);
      }),
      { seed: 5, numRuns: 60 },
    );
  });

  it("moves in the list within its ends", () => {
    const { rode } = withKellet.rig;
    expect(movedPart(rode, 0, -1)).toBe(rode);
    expect(movedPart(rode, 0, 1).map(({ name }) => name)[1]).toBe("bow shackle 10 mm");
  });
});

describe("the view of the drawing", () => {
  it("is to one scale both ways and holds the whole extent", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 200, max: 2000, noNaN: true }),
        fc.double({ min: 200, max: 900, noNaN: true }),
        fc.double({ min: 1, max: 500, noNaN: true }),
        fc.double({ min: 0.5, max: 200, noNaN: true }),
        (width, height, to, below) => {
          const margins = { left: 44, right: 84, top: 60, bottom: 70 };
          const view = fitView(width, height, { from: -1, to, below, above: 0.2 }, margins);
          expect(xPx(view, -1)).toBeGreaterThanOrEqual(margins.left - 1e-6);
          expect(xPx(view, to)).toBeLessThanOrEqual(width - margins.right + 1e-6);
          expect(yPx(view, below)).toBeLessThanOrEqual(height - margins.bottom + 1e-6);
          expect(yPx(view, -0.2)).toBeGreaterThanOrEqual(margins.top - 1e-6);
          expect(xPx(view, 10) - xPx(view, 0)).toBeCloseTo(yPx(view, 10) - yPx(view, 0), 6);
          expect(xMetres(view, xPx(view, 7))).toBeCloseTo(7, 6);
        },
      ),
      { seed: 3 },
    );
  });

  it("has a scale bar of a round length that fits", () => {
    const view = fitView(
      900,
      400,
      { from: 0, to: 40, below: 8, above: 0 },
      { left: 64, right: 150, top: 70, bottom: 84 },
    );
    const bar = scaleBar(view, 1, 140);
    expect([1, 2, 5, 10]).toContain(bar.units);
    expect(bar.px).toBeLessThanOrEqual(140);
    expect(bar.px).toBeCloseTo(bar.units * view.scale, 9);
    expect([roundBelow(1), roundBelow(4.9), roundBelow(0.07), roundBelow(999)]).toEqual([1, 2, 0.05, 500]);
  });

  it("ticks at round numbers within the range, and tops an axis at one", () => {
    expect(ticks(0, 10, 5)).toEqual([0, 2, 4, 6, 8, 10]);
    expect(ticks(37.7, 40.2, 4)).toEqual([38, 39, 40]);
    expect(ticks(5, 5, 4)).toEqual([5]);
    expect([roundAbove(1), roundAbove(1.01), roundAbove(2400), roundAbove(0.076)]).toEqual([1, 1.5, 3000, 0.1]);
  });
});
