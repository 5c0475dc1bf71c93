import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { isLater, latestValues, timestampOf, withWaiting } from "../../src/record/index.ts";

const change = (field: string, value: string | null, ms: number, transaction: string) => ({
  field,
  value,
  stamp: timestampOf(ms),
  transaction,
});

describe("the value a field has", () => {
  it("is that of the latest stamp; of one stamp, that of the transaction with the larger id", () => {
    const values = latestValues([
      change("name", '"late"', 2, "a"),
      change("name", '"early"', 1, "z"),
      change("depth_m", "5", 1, "b"),
      change("depth_m", "6", 1, "c"),
      change("depth_m", "4", 1, "a"),
      change("hidden", "false", 1, "a"),
    ]);
    expect([...values]).toEqual([
      ["name", '"late"'],
      ["depth_m", "6"],
      ["hidden", "false"],
    ]);
  });

  it("may be nothing again: a value taken back stays taken back", () => {
    expect(latestValues([change("name", '"x"', 1, "a"), change("name", null, 2, "b")]).get("name")).toBeNull();
  });

  it("does not depend on the order the changes came in", () => {
    const one = fc.record({
      field: fc.constantFrom("a", "b"),
      value: fc.option(fc.integer().map(String)),
      stamp: fc.nat(3).map((ms) => timestampOf(ms)),
      transaction: fc.uuid(),
    });
    const set = fc.uniqueArray(one, { selector: (c) => c.transaction, maxLength: 12 });
    fc.assert(
      fc.property(
        set.chain((s) => fc.tuple(fc.constant(s), fc.shuffledSubarray(s, { minLength: s.length }))),
        ([a, b]) => {
          const sorted = (values: Map<string, string | null>) => [...values].sort(([x], [y]) => (x < y ? -1 : 1));
          expect(sorted(latestValues(b))).toEqual(sorted(latestValues(a)));
        },
      ),
    );
  });

  it("stands over nothing of its own order", () => {
    const same = { stamp: timestampOf(1), transaction: "a" };
    expect(isLater(same, same)).toBe(false);
  });
});

describe("what waits on a device", () => {
  const site = { id: "s", hidden: true, name: "Ebb Cove", latitude_deg: 1 };
  const records = { site: [site], day: [] };
  const wrote = (id: string, kind: string, record: string, set: object) => ({
    id,
    records: [{ kind, id: record, makes: false, set: set as Record<string, unknown> }],
  });

  it("is laid over the records in the order it was written, and changes none of them", () => {
    const laid = withWaiting(records, [
      wrote("2", "site", "s", { name: "later" }),
      wrote("1", "site", "s", { name: "first", latitude_deg: 2 }),
      wrote("3", "day", "d", { date: "2031-05-17" }),
      wrote("4", "boot", "b", {}),
    ]);
    expect(laid).toEqual({
      site: [{ id: "s", hidden: true, name: "later", latitude_deg: 2, waits: true }],
      day: [{ id: "d", hidden: false, date: "2031-05-17", waits: true }],
    });
    expect(records.site).toEqual([site]);
    expect(withWaiting(records, [])).toEqual(records);
  });

  it("cannot take another record's place, or show a hidden one", () => {
    const laid = withWaiting(records, [wrote("1", "site", "s", { id: "other", hidden: false })]);
    expect(laid.site).toEqual([{ ...site, waits: true }]);
  });
});
