import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { BookTrouble, newBook, openBook } from "../../src/book/index.ts";
import { InputError } from "../../src/quantity/index.ts";
import { rigText } from "../support/rig-text.ts";
import { folder, steadyPorts } from "./folder.ts";

const fresh = (seed = 1) => {
  const path = join(folder(), "quay.book");
  return newBook(path, { title: "Quay days" }, { who: "Ada", ports: steadyPorts(seed) });
};

describe("records", () => {
  it("keeps a pull with all it points to, through closing and opening", () => {
    const book = fresh();
    const site = book.add("site", { name: "Ebb Cove", latitude_deg: 10.5, longitude_deg: -20.25 });
    const day = book.add("day", { date: "2031-05-17", site, testers: "Ada and Bo", wind_m_per_s: 5 });
    const rig = book.add("rig", { name: "Quay rig" });
    const rigVersion = book.add("rigVersion", { rig, file: rigText("Quay rig") });
    const anchor = book.add("anchor", { name: "Fifteen", shape: "scoop", mass_kg: 15, make: "home-made" });
    const pull = book.add("pull", {
      day,
      anchor,
      rigVersion,
      depth_m: 6,
      scope: 5,
      paidOut_m: 37.5,
      steps: [{ load_N: 1000, duration_s: 60 }],
      result: { kind: "heldTo", load_N: 4000 },
      endedBy: "engine limit",
    });
    const before = book.get("pull", pull);
    book.close();
    const again = openBook(book.path, { ports: steadyPorts(2) });
    expect(again.get("pull", pull)).toEqual(before);
    expect(again.get("pull", pull)).toMatchObject({
      anchor,
      result: { kind: "heldTo", load_N: 4000 },
      heading_deg: null,
    });
    expect(again.list("pull", { where: { day } }).map((p) => p.id)).toEqual([pull]);
    again.close();
  });

  it("keeps who changed what, when, and what it was", () => {
    const book = fresh();
    const site = book.add("site", { name: "Ebb Cove" });
    book.edit("site", site, { name: "Ebb Cove, north" });
    const [newest, made] = book.history({ record: site });
    expect(newest).toMatchObject({
      who: "Ada",
      manner: "edit",
      label: "edit site",
      changes: [{ kind: "site", field: "name", was: "Ebb Cove", value: "Ebb Cove, north" }],
    });
    expect(Date.parse(newest!.at)).toBeGreaterThan(Date.parse(made!.at));
    expect(book.edit("site", site, { name: "Ebb Cove, north" })).toBeNull();
    expect(book.history({ record: site })).toHaveLength(2);
    book.close();
  });

  it.each([
    [{ name: "x", latitude_deg: 91 }, "site.latitude_deg: 91; a latitude from -90 to 90 is expected"],
    [{ latitude_deg: 1 }, "site.name: nothing given; a name is expected"],
    [{ name: "" }, "site.name: nothing given; a name is expected"],
    [{ name: 7 }, "site.name: 7; a name is expected"],
    [{ name: "x", latitude_deg: Number.NaN }, "site.latitude_deg: NaN; a latitude from -90 to 90 is expected"],
    [{ name: "a\0b" }, 'site.name: "a\\u0000b"; a name is expected'],
    [{ name: "half \ud800" }, 'site.name: "half \\ud800"; a name is expected'],
    [
      { name: "x", depth: 3 },
      "site.depth: no such field; one of name, latitude_deg, longitude_deg, description is expected",
    ],
  ])("refuses a site %j in one line", (set, line) => {
    const book = fresh();
    expect(() => book.add("site", set as never)).toThrow(InputError);
    expect(() => book.add("site", set as never)).toThrow(line);
    expect(book.list("site")).toEqual([]);
    book.close();
  });

  it("refuses a pointer to nothing and to a record of another kind", () => {
    const book = fresh();
    const site = book.add("site", { name: "Ebb Cove" });
    expect(() => book.add("pull", { day: site })).toThrow("the id of a day in this book is expected");
    expect(() => book.add("note", { text: "hm", about: "01a21214-a185-7000-9454-a223655150e0" })).toThrow(
      "the id of a record in this book is expected",
    );
    expect(book.add("note", { text: "hm", about: site })).toBeTruthy();
    book.close();
  });

  it("keeps a rig file whole: a change is a new version beside the old", () => {
    const book = fresh();
    const rig = book.add("rig", { name: "Quay rig" });
    const version = book.add("rigVersion", { rig, file: rigText("one") });
    expect(() => book.edit("rigVersion", version, { file: rigText("two") })).toThrow(
      "a new record beside the old is expected",
    );
    expect(book.edit("rigVersion", version, { file: rigText("one"), reason: "as built" })).not.toBeNull();
    book.close();
  });

  it("makes nothing when one of several records is wrong", () => {
    const book = fresh();
    const drafts = [
      { kind: "site", set: { name: "Ebb Cove" } },
      { kind: "anchor", set: { name: "Fifteen", shape: "round" as never } },
    ] as const;
    expect(() => book.write(drafts, "both")).toThrow("anchor.shape");
    expect(book.list("site")).toEqual([]);
    book.close();
  });
});

describe("undo", () => {
  it("takes back and brings back, step by step", () => {
    const book = fresh();
    const site = book.add("site", { name: "one" });
    book.edit("site", site, { name: "two" });
    book.edit("site", site, { name: "three" });
    const name = () => book.list("site").map((s) => s.name);
    const steps = [book.undo, book.undo, book.undo, book.redo, book.redo, book.undo, book.redo, book.redo];
    const seen = steps.map((step) => {
      step.call(book);
      return name();
    });
    expect(seen).toEqual([["two"], ["one"], [], ["one"], ["two"], ["one"], ["two"], ["three"]]);
    expect(book.redo()).toEqual({ kind: "nothing" });
    book.close();
  });

  it("cannot be redone once something else was written", () => {
    const book = fresh();
    const site = book.add("site", { name: "one" });
    book.edit("site", site, { name: "two" });
    book.undo();
    book.edit("site", site, { description: "sheltered" });
    expect(book.redo()).toEqual({ kind: "nothing" });
    expect(book.get("site", site)).toMatchObject({ name: "one", description: "sheltered" });
    book.close();
  });

  it("leaves alone what was changed since, and says so", () => {
    const book = fresh();
    const site = book.add("site", { name: "one" });
    const transaction = book.edit("site", site, { name: "two", description: "old" })!;
    book.edit("site", site, { name: "three" });
    expect(book.undo(transaction)).toMatchObject({ kind: "reverted", fields: 1, overtaken: 1 });
    expect(book.get("site", site)).toMatchObject({ name: "three", description: null });
    book.close();
  });

  it("takes several records written as one transaction back together", () => {
    const book = fresh();
    book.write(
      [
        { kind: "site", set: { name: "a" } },
        { kind: "site", set: { name: "b" } },
      ],
      "two sites",
    );
    book.undo();
    expect(book.list("site")).toEqual([]);
    expect(book.list("site", { hidden: "only" })).toHaveLength(2);
    book.close();
  });
});

describe("a book's file", () => {
  it("is not made over another file", () => {
    const book = fresh();
    book.close();
    expect(() => newBook(book.path, { title: "Again" })).toThrow(BookTrouble);
    expect(openBook(book.path).about().title).toBe("Quay days");
  });
});
