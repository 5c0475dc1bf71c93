import { describe, expect, it } from "vitest";
import { carryHeld, heldLoad } from "../../../src/pull/trace/held.ts";
import type { Mark } from "../../../src/pull/trace/marks.ts";
import { GRAVITY, type Rig } from "../../../src/rode/index.ts";

function mark(kind: Mark["kind"], from: number, to: number, value: number, u = 5): Mark {
  return { id: `${kind}@${from}`, kind, from, to, value, u, of: "force", why: "it did" };
}

describe("the held load", () => {
  it("is the highest load held long enough, when nothing gave way", () => {
    const held = heldLoad(
      [mark("plateau", 0, 30, 1000), mark("plateau", 40, 70, 2000), mark("plateau", 80, 84, 3000)],
      "bow",
      8,
    );
    expect(held).toMatchObject({ kind: "heldTo", newtons: 2000, u: 5, at: "bow", mark: "plateau@40" });
  });

  it("is where it gave way, when it held no more than that", () => {
    expect(heldLoad([mark("plateau", 0, 30, 1000), mark("drag", 50, 52, 1800, 20)], "anchor", 8)).toMatchObject({
      kind: "gaveWay",
      newtons: 1800,
      u: 20,
      at: "anchor",
    });
  });

  it("is what it held afterwards, when it dug in again and held more", () => {
    expect(heldLoad([mark("drag", 10, 12, 800), mark("plateau", 30, 60, 1500)], "bow", 8)).toMatchObject({
      kind: "heldTo",
      newtons: 1500,
    });
  });

  it("a drag that ends the highest plateau ends what was held, though the load swung low as it began", () => {
    expect(heldLoad([mark("plateau", 0, 30, 2000, 4), mark("drag", 30.5, 32, 1900, 20)], "bow", 8)).toMatchObject({
      kind: "gaveWay",
      newtons: 2000,
      mark: "drag@30.5",
    });
  });

  it("a plateau through which it dragged held nothing", () => {
    expect(
      heldLoad([mark("plateau", 0, 30, 1000), mark("plateau", 40, 80, 2000), mark("drag", 45, 79, 1500)], "bow", 8),
    ).toMatchObject({ kind: "gaveWay", newtons: 1500 });
  });

  it("is not known when nothing was held and nothing gave way", () => {
    expect(heldLoad([mark("peak", 5, 5, 3000)], "bow", 8).kind).toBe("notKnown");
  });
});

describe("the held load at the other end", () => {
  /** A chain in air, heavy pull, all of it lifted: tension falls by the weight of the rise, whatever its shape. */
  const rig: Rig = {
    name: "quay",
    setting: { medium: "air", rise: 9, bottomSlope: 0, bottomFriction: 0 },
    rode: [{ kind: "line", name: "chain", length: 30, massPerLength: 2.3, density: 7850, stretch: { kind: "rigid" } }],
    uncertainty: {},
  };

  it("is less at the anchor by the weight of the rise, read at the bow", () => {
    const c = carryHeld({ kind: "gaveWay", newtons: 4000, u: 30, at: "bow", mark: "", why: "" }, rig);
    if (c.kind === "noEquilibrium") throw new Error(c.why);
    expect(c.kind).toBe("gaveWay");
    expect(c.bow.value).toBeCloseTo(4000, 6);
    // T_bow − T_anchor = m g · rise for a lifted line that does not stretch (closed form).
    expect(c.bow.value - c.anchor.value).toBeCloseTo(2.3 * GRAVITY * 9, 6);
    // The difference does not depend on the load: the uncertainty passes unchanged.
    expect(c.anchor.u).toBeCloseTo(30, 6);
    expect(c.bow.u).toBeCloseTo(30, 6);
  });

  it("takes the uncertainty of mass and rise along, first order", () => {
    const unsure: Rig = { ...rig, uncertainty: { massPerLength: 0.03, rise: 0.2 } };
    const c = carryHeld({ kind: "heldTo", newtons: 4000, u: 30, at: "bow", mark: "", why: "" }, unsure);
    if (c.kind === "noEquilibrium") throw new Error(c.why);
    const hanging = 2.3 * GRAVITY;
    expect(c.anchor.u).toBeCloseTo(Math.hypot(30, 0.03 * hanging * 9, 0.2 * hanging), 4);
    expect(c.bow.u).toBeCloseTo(30, 6);
  });

  it("says why when no equilibrium has that load", () => {
    const c = carryHeld({ kind: "heldTo", newtons: 10, u: 1, at: "bow", mark: "", why: "" }, rig);
    expect(c.kind).toBe("noEquilibrium");
  });
});
