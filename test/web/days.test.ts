import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import fc from "fast-check";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { type Book, newBook } from "../../src/book/index.ts";
import { placeText, planeOf } from "../../src/figure/index.ts";
import { readColumnChoice } from "../../src/log/index.ts";
import { roundBelow } from "../../src/numeric/index.ts";
import { InputError } from "../../src/quantity/index.ts";
import { withWaiting } from "../../src/record/index.ts";
import { daysCodec } from "../../src/web/days/address.ts";
import type { AnyRecord, BookCopy, LogHere } from "../../src/web/days/book-copy.ts";
import { answerText, roleOf, roles, withAnswer, withColumn } from "../../src/web/days/bring-in/log-choices.ts";
import { dayGroups, saysAll } from "../../src/web/days/find.ts";
import { type Formed, forms, kept } from "../../src/web/days/kinds.ts";
import { placeTyped } from "../../src/web/days/place-typed.ts";
import type { DaysState } from "../../src/web/days/state.ts";
import { refusalOf, stateOf } from "../support/address.ts";

const id = (n: number): string => `018f0000-0000-7000-8000-${String(n).padStart(12, "0")}`;

describe("the forms are those of the book", () => {
  const folder = mkdtempSync(join(tmpdir(), "days-forms-"));
  let book: Book;
  beforeAll(() => {
    book = newBook(join(folder, "forms.book"), { title: "Forms" }, { who: "test" });
  });
  afterAll(() => {
    book.close();
    rmSync(folder, { recursive: true, force: true });
  });

  it("with fields the book knows, bounded as the book bounds them", () => {
    for (const [kind, fields] of Object.entries(forms) as [Formed, (typeof forms)[Formed]][]) {
      for (const field of fields) {
        if (field.as !== "quantity" && field.as !== "number" && field.as !== "place") continue;
        const { least, most } = field.bounds;
        const write = (value: number) =>
          book.write([{ kind, set: { ...needed[kind], [field.name]: value } } as never], "try");
        for (const fits of [least, most])
          if (fits !== undefined) expect(() => write(fits), `${kind}.${field.name} ${fits}`).not.toThrow();
        if (least !== undefined)
          expect(() => write(least - Math.max(1e-6, 0.01 * Math.abs(least))), `${kind}.${field.name} below`).toThrow(
            InputError,
          );
        if (most !== undefined) expect(() => write(1.01 * most), `${kind}.${field.name} above`).toThrow(InputError);
      }
      // What a form says is needed, the book needs too, and no more.
      const named = fields.filter((field) => field.required).map(({ name }) => name);
      expect(named.every((name) => Object.hasOwn(needed[kind], name))).toBe(true);
      expect(() => book.write([{ kind, set: needed[kind] } as never], "needed")).not.toThrow();
      for (const name of named) {
        const { [name]: _, ...others } = needed[kind];
        expect(() => book.write([{ kind, set: others } as never], "missing"), `${kind} without ${name}`).toThrow(
          InputError,
        );
      }
    }
  });
});

const needed: Readonly<Record<Formed, Readonly<Record<string, unknown>>>> = {
  site: { name: "a" },
  seabed: { name: "a" },
  anchor: { name: "a", shape: "claw" },
  boat: { name: "a" },
  rig: { name: "a" },
  series: { name: "a" },
  day: { date: "2031-05-17" },
  pull: {},
  note: { text: "a" },
};

describe("places on a plane", () => {
  it("lie as far apart as the haversine says, to 1e-4 over ten kilometres", () => {
    // Outside check: the haversine formula on the same sphere; the plane's own error grows with the square of the size.
    const R = 6_371_008.8;
    const rad = Math.PI / 180;
    fc.assert(
      fc.property(
        fc.double({ min: -65, max: 65, noNaN: true }),
        fc.double({ min: -180, max: 180, noNaN: true }),
        fc.double({ min: -0.04, max: 0.04, noNaN: true }),
        fc.double({ min: -0.04, max: 0.04, noNaN: true }),
        (latitude, longitude, dLat, dLon) => {
          const [a, b] = [
            { latitude, longitude },
            { latitude: latitude + dLat, longitude: longitude + dLon },
          ];
          const plane = planeOf([a, b]);
          const flat = Math.hypot(plane.east(a) - plane.east(b), plane.north(a) - plane.north(b));
          const h =
            Math.sin((dLat * rad) / 2) ** 2 +
            Math.cos(a.latitude * rad) * Math.cos(b.latitude * rad) * Math.sin((dLon * rad) / 2) ** 2;
          const round = 2 * R * Math.asin(Math.sqrt(h));
          expect(Math.abs(flat - round)).toBeLessThanOrEqual(1e-4 * round + 1e-3);
        },
      ),
      { seed: 4, numRuns: 400 },
    );
  });

  it("stand together across the line where longitude jumps", () => {
    const [west, east] = [
      { latitude: 10, longitude: 179.99 },
      { latitude: 10, longitude: -179.99 },
    ];
    const plane = planeOf([west, east]);
    expect(plane.east(east) - plane.east(west)).toBeCloseTo(
      0.02 * (Math.PI / 180) * 6_371_008.8 * Math.cos(10 * (Math.PI / 180)),
      3,
    );
  });

  it("are read back as they are written, to a thousandth of a minute", () => {
    fc.assert(
      fc.property(fc.double({ min: -180, max: 180, noNaN: true }), (degrees) => {
        const back = placeTyped(placeText(degrees, "longitude"), "longitude");
        // Half a thousandth of a minute is what the text leaves out.
        expect(Math.abs(back! - degrees)).toBeLessThanOrEqual(0.0005 / 60 + 1e-12);
      }),
      { seed: 5, numRuns: 500 },
    );
  });

  it("are typed as people write them, and refused when they are none", () => {
    expect(placeTyped("-20.25", "longitude")).toBe(-20.25);
    expect(placeTyped("20° 15.0' W", "longitude")).toBeCloseTo(-20.25, 12);
    expect(placeTyped("10 30 0 S", "latitude")).toBeCloseTo(-10.5, 12);
    expect(placeTyped("10.5 n", "latitude")).toBe(10.5);
    for (const wrong of ["", "north", "10 61 N", "-10 N", "10.5 E", "10,5"])
      expect(placeTyped(wrong, "latitude"), wrong).toBeNull();
  });

  it("have a scale bar of 1, 2 or 5 times a power of ten that fits", () => {
    fc.assert(
      fc.property(fc.double({ min: 0.01, max: 1e6, noNaN: true }), (most) => {
        const length = roundBelow(most);
        expect(length).toBeLessThanOrEqual(most * (1 + 1e-12));
        expect(length).toBeGreaterThan(most / 2.5 - 1e-12);
        expect([1, 2, 5]).toContain(Number((length / 10 ** Math.floor(Math.log10(length * (1 + 1e-9)))).toFixed(6)));
      }),
      { seed: 6, numRuns: 300 },
    );
  });
});

describe("the address of Days", () => {
  const ids = fc.integer({ min: 1, max: 999 }).map(id);
  const at: fc.Arbitrary<DaysState["at"]> = fc.oneof(
    fc.constant({ page: "book" } as const),
    fc.constant({ page: "devices" } as const),
    fc.record({ page: fc.constant("record" as const), kind: fc.constantFrom(...kept), id: ids }),
    fc.record({
      page: fc.constant("form" as const),
      kind: fc.constantFrom(...(Object.keys(forms) as Formed[])),
      id: fc.option(ids),
      about: fc.option(ids.map((one) => `day:${one}`)),
    }),
    fc.record({ page: fc.constant("bring in" as const), sent: fc.option(fc.constant("a-b_1")), pull: fc.option(ids) }),
    fc
      .record({
        window: fc.option(fc.tuple(fc.integer({ min: 0, max: 2e9 }), fc.integer({ min: 1, max: 9999 }))),
        channels: fc.option(fc.constantFrom(["load"], ["load", "depth"])),
        mark: fc.option(ids),
        fit: fc.boolean(),
        id: ids,
      })
      .map(({ window, ...rest }) => ({
        page: "log" as const,
        from: window === null ? null : window[0] / 8,
        to: window === null ? null : window[0] / 8 + window[1] / 8,
        ...rest,
      })),
  );

  it("gives the state back, whatever is shown", () => {
    fc.assert(
      fc.property(
        fc.record({
          shelf: fc.constantFrom("days", "sites", "anchors", "rigs", "boats", "series", "logs") as fc.Arbitrary<
            DaysState["shelf"]
          >,
          narrow: fc.record({
            find: fc.string({ maxLength: 20 }),
            site: fc.option(ids),
            anchor: fc.option(ids),
            series: fc.option(ids),
            aside: fc.boolean(),
          }),
          at,
        }),
        (state) => {
          const fields = Object.fromEntries(
            new URLSearchParams(new URLSearchParams(daysCodec.write(state)).toString()),
          );
          expect(stateOf(daysCodec, fields)).toEqual(state);
        },
      ),
      { seed: 7, numRuns: 500 },
    );
  });

  it("is refused by name where it is unreadable, and is none where nothing is said", () => {
    expect(daysCodec.read({})).toEqual({ kind: "none" });
    expect(refusalOf(daysCodec, { at: "record pull nothing" })).toEqual([
      'at: "record pull nothing" is given; a page of the book is expected, such as a record by its kind and id',
    ]);
    expect(refusalOf(daysCodec, { at: `log ${id(1)}`, from: "9", to: "3" })).toEqual([
      'to: "3" is given; a window that ends after it begins is expected',
    ]);
    expect(refusalOf(daysCodec, { shelf: "cellar", site: "7" })).toHaveLength(2);
  });
});

const empty = Object.fromEntries([...kept, "picture"].map((kind) => [kind, []])) as unknown as BookCopy["records"];
/** Of records only what is told is known: the list heeds nothing else. */
const copyOf = (records: Readonly<Record<string, readonly object[]>>, logs: readonly LogHere[] = []): BookCopy => ({
  state: "fresh",
  trouble: null,
  title: "",
  description: "",
  simulated: false,
  readOnly: false,
  via: "computer",
  records: { ...empty, ...records } as BookCopy["records"],
  logs,
});
/** A record of which only that is known. */
const rec = <F extends object>(n: number, fields: F) => ({ id: id(n), hidden: false, ...fields });

describe("what is found", () => {
  const records = {
    site: [rec(1, { name: "Ebb Cove" }), rec(2, { name: "Long Flats" })],
    anchor: [rec(3, { name: "Fifteen", shape: "scoop" })],
    day: [rec(4, { date: "2031-05-17", site: id(1) }), rec(5, { date: "2031-05-18", site: id(2), weather: "Böen" })],
    pull: [
      rec(6, { day: id(4), anchor: id(3), number: 2 }),
      rec(7, { day: id(4), number: 1 }),
      rec(8, { day: id(5), number: 1, hidden: true }),
      rec(9, {}),
    ].map((one) => (one.id === id(8) ? { ...one, hidden: true } : one)),
  };
  const open = { find: "", site: null, anchor: null, series: null, aside: false };

  it("stands by days, the newest first, pulls in their order, pulls of no day last", () => {
    const groups = dayGroups(copyOf(records), open);
    expect(groups.map(({ day }) => day?.date ?? null)).toEqual(["2031-05-18", "2031-05-17", null]);
    expect(groups[1]!.pulls.map((pull) => pull.id)).toEqual([id(7), id(6)]);
    expect(groups[0]!.pulls).toEqual([]);
  });

  it("answers to words of the pull, of its anchor and of its day, without case or accents", () => {
    const found = (find: string) =>
      dayGroups(copyOf(records), { ...open, find }).flatMap(({ pulls }) => pulls.map((pull) => pull.id));
    expect(found("SCOOP")).toEqual([id(6)]);
    expect(found("ebb 2031")).toEqual([id(7), id(6)]);
    expect(found("nowhere")).toEqual([]);
    expect(saysAll("boen", "Böen")).toBe(true);
  });

  it("narrows to a site or an anchor, and shows what was put aside only when asked", () => {
    expect(dayGroups(copyOf(records), { ...open, site: id(2) }).map(({ day }) => day?.id)).toEqual([id(5)]);
    expect(
      dayGroups(copyOf(records), { ...open, anchor: id(3) }).flatMap(({ pulls }) => pulls.map((p) => p.id)),
    ).toEqual([id(6)]);
    expect(dayGroups(copyOf(records), { ...open, aside: true })[0]!.pulls.map((p) => p.id)).toEqual([id(8)]);
  });
});

describe("what waits on the device", () => {
  it("is laid over the copy in the order it was written, and marked", () => {
    const base = { ...empty, site: [rec(1, { name: "Ebb Cove" })] };
    const transaction = (n: number, records: readonly unknown[]) =>
      ({ id: id(n), device: id(90), at: "", label: "", records }) as never;
    const laid = withWaiting<AnyRecord>(base, [
      transaction(21, [{ kind: "site", id: id(1), makes: false, set: { name: "Later" } }]),
      transaction(20, [
        { kind: "site", id: id(1), makes: false, set: { name: "Earlier", description: "kept" } },
        { kind: "pull", id: id(2), makes: true, set: { number: 1 } },
      ]),
    ]);
    expect(laid.site).toEqual([{ id: id(1), hidden: false, name: "Later", description: "kept", waits: true }]);
    expect(laid.pull).toEqual([{ id: id(2), hidden: false, number: 1, waits: true }]);
    expect(base.site[0]).toEqual(rec(1, { name: "Ebb Cove" }));
    expect(withWaiting<AnyRecord>(base, [])).toEqual(base);
  });
});

describe("what is told of a log file", () => {
  it("is what the reader of logs takes, for every role", () => {
    for (const { role } of roles) {
      const unit = { load: "kN", windSpeed: "kn", depth: "m", time: "dmy" }[role] ?? "";
      const [text] = withColumn({}, 3, role, unit).columns!;
      const choice = readColumnChoice(text!, "told");
      expect(choice.role).toBe(role);
      expect(choice.column).toBe("3");
    }
  });

  it("tells a column once, the last word standing", () => {
    const told = withColumn(withColumn(withColumn({}, 2, "load", "kN"), 1, "time", ""), 2, "load", "lbf");
    expect(told.columns).toEqual(["time=1", "load=2:lbf"]);
  });

  it("takes an answer of a question as it stands", () => {
    expect(withAnswer({}, "--map load=2:kgf")).toEqual({ columns: ["load=2:kgf"] });
    expect(withAnswer({}, "--decimal comma")).toEqual({ decimal: "," });
    expect(withAnswer({}, "--delimiter ';'")).toEqual({ delimiter: ";" });
    expect(withAnswer({}, "--map load=COLUMN:UNIT")).toBeNull();
    expect(withAnswer({}, "--rate 10")).toBeNull();
    expect(withAnswer({}, "--loads sum")).toEqual({ loads: "sum" });
    expect(withAnswer({}, "--load-path anchor.rode.load")).toEqual({ loadPath: "anchor.rode.load" });
    expect(withAnswer({ sources: ["a"] }, "--source 'gps 2'")).toEqual({ sources: ["a", "gps 2"] });
    expect(withAnswer({}, "--context vessels.self")).toEqual({ context: "vessels.self" });
    expect(roleOf("load-2")).toBe("load");
    expect(roleOf("not taken")).toBe("ignore");
  });

  it("says answers as people read them", () => {
    expect(answerText("--map load=4:kN", [{ number: 4, title: "Total load (kN)" }])).toBe("Total load (kN), in kN");
    expect(answerText("--map load=2:kN")).toBe("kN");
    expect(answerText("--map time=1:elapsed-ms")).toBe("milliseconds");
    expect(answerText("--loads sum")).toBe("all of them, added up");
    expect(answerText("--source GP")).toBe("GP");
  });
});
