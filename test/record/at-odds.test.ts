import { describe, expect, it } from "vitest";
import { atOdds } from "../../src/record/index.ts";

const change = (was: unknown, value: unknown, by = "") => ({ field: "depth_m", was, value, by });
const open = (...changes: ReturnType<typeof change>[]) =>
  atOdds(changes).map(({ stands, others }) => [stands.value, ...others.map(({ value }) => value)]);

describe("two who wrote one field without seeing each other", () => {
  it("are found, with the later value standing and the other beside it", () => {
    expect(open(change(null, 7), change(7, 7.4, "phone"), change(7, 6.8, "desk"))).toEqual([[6.8, 7.4]]);
    expect(atOdds([change(null, 7), change(7, 7.4, "phone"), change(7, 6.8, "desk")])[0]).toMatchObject({
      field: "depth_m",
      stands: { by: "desk" },
      others: [{ by: "phone" }],
    });
  });

  it("are not those who wrote one after the other, nor those who wrote the same", () => {
    expect(open(change(null, 7), change(7, 7.4), change(7.4, 6.8))).toEqual([]);
    expect(open(change(null, 7), change(7, 7.4), change(7, 7.4))).toEqual([]);
    expect(open(change(undefined, { kind: "heldTo", load_N: 3 }), change({ kind: "heldTo", load_N: 3 }, null))).toEqual(
      [],
    );
  });

  it("stay open while somebody goes on from one of the two, and are three where three wrote", () => {
    const both = [change(null, 7), change(7, 7.4), change(7, 6.8)];
    expect(open(...both, change(6.8, 6.9))).toEqual([[6.9, 7.4]]);
    expect(open(...both, change(7, 9))).toEqual([[9, 7.4, 6.8]]);
  });

  it("are settled by a choice, of either", () => {
    const both = [change(null, 7), change(7, 7.4), change(7, 6.8)];
    // Kept: it saw 7.4, and sets what stands. Taken: it saw 6.8, and sets the other.
    expect(open(...both, change(7.4, 6.8))).toEqual([]);
    expect(open(...both, change(6.8, 7.4))).toEqual([]);
  });

  it("are told field by field, and putting a record aside is none", () => {
    const aside = { field: "hidden", was: false, value: true, by: "" };
    const scope = { field: "scope", was: 5, value: 4, by: "" };
    expect(atOdds([change(null, 7), scope, aside, aside, change(null, 8)]).map(({ field }) => field)).toEqual([
      "depth_m",
    ]);
  });
});
