import { describe, expect, it } from "vitest";
import { heldLoad } from "../../../src/pull/trace/held.ts";
import type { Mark } from "../../../src/pull/trace/marks.ts";

function mark(kind: Mark["kind"], from: number, to: number, value: number, u = 5): Mark {
  return { id: `${kind}@${from}`, kind, from, to, value, u, of: "force", why: { kind: "written", text: "it did" } };
}

const rule = { heldFor: 8, heldWithin: 1 };

describe("the held load", () => {
  it("is the highest load held long enough, when nothing gave way", () => {
    const held = heldLoad(
      [mark("plateau", 0, 30, 1000), mark("plateau", 40, 70, 2000), mark("plateau", 80, 84, 3000)],
      "bow",
      rule,
    );
    expect(held).toMatchObject({ kind: "heldTo", newtons: 2000, u: 5, at: "bow", mark: "plateau@40" });
  });

  it("is where it gave way, when it held no more than that", () => {
    expect(heldLoad([mark("plateau", 0, 30, 1000), mark("drag", 50, 52, 1800, 20)], "anchor", rule)).toMatchObject({
      kind: "gaveWay",
      newtons: 1800,
      u: 20,
      at: "anchor",
    });
  });

  it("is what it held afterwards, when it dug in again and held more", () => {
    expect(heldLoad([mark("drag", 10, 12, 800), mark("plateau", 30, 60, 1500)], "bow", rule)).toMatchObject({
      kind: "heldTo",
      newtons: 1500,
    });
  });

  it("a drag that ends the highest plateau ends what was held, though the load swung low as it began", () => {
    expect(heldLoad([mark("plateau", 0, 30, 2000, 4), mark("drag", 30.5, 32, 1900, 20)], "bow", rule)).toMatchObject({
      kind: "gaveWay",
      newtons: 2000,
      mark: "drag@30.5",
    });
  });

  it("a plateau through which it dragged held nothing", () => {
    expect(
      heldLoad([mark("plateau", 0, 30, 1000), mark("plateau", 40, 80, 2000), mark("drag", 45, 79, 1500)], "bow", rule),
    ).toMatchObject({ kind: "gaveWay", newtons: 1500 });
  });

  it("is not known when nothing was held and nothing gave way", () => {
    expect(heldLoad([mark("peak", 5, 5, 3000)], "bow", rule).kind).toBe("notKnown");
  });
});
