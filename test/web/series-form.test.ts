import { readFileSync } from "node:fs";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { readSeries } from "../../src/series/index.ts";
import { formOf, withField, withItem, withoutItem } from "../../src/web/series/form-text.ts";

const TEXT = readFileSync("data/series/creek-trial.yaml", "utf8");
const DEGREE = Math.PI / 180;

describe("the form of a series", () => {
  it("shows what the text says", () => {
    const form = formOf(TEXT)!;
    expect(form.at(["question", "angles"])).toBe("2 deg, 12 deg");
    expect(form.at(["pulls", "repeats"])).toBe("3");
    expect(form.at(["sites", 0, "depth"])).toBe("2 m, 7 m");
    expect(form.items(["anchors"], ["name", "mass"])).toEqual([
      { name: "Plough A", mass: "6 kg" },
      { name: "Scoop B", mass: "6 kg" },
    ]);
    expect(form.at(["limits", "underKeel"])).toBe("");
    expect(formOf("a: [1")).toBeNull();
    expect(formOf("just words")).toBeNull();
  });

  it("changes the place of a field and nothing else, comments and all", () => {
    const angled = withField(TEXT, ["question", "angles"], "3 deg, 9 deg, 15 deg", true);
    expect(angled).toContain("# An invented series, for the examples: no such trial was made.");
    const before = readSeries(TEXT, "x");
    const after = readSeries(angled, "x");
    expect(after.angles.map((angle) => angle / DEGREE)).toEqual([3, 9, 15].map((value) => expect.closeTo(value, 12)));
    expect({ ...after, angles: before.angles }).toEqual(before);
    expect(readSeries(withField(angled, ["question", "angles"], "2 deg, 12 deg", true), "x")).toEqual(before);
  });

  it("adds and takes out groups of a list: in and out again is the same series", () => {
    const before = readSeries(TEXT, "x");
    const more = withItem(TEXT, ["anchors"], { name: "Fluke C", mass: "7 kg" });
    expect(readSeries(more, "x").anchors).toEqual([...before.anchors, { name: "Fluke C", mass: 7 }]);
    expect(readSeries(withoutItem(more, ["anchors", 2]), "x")).toEqual(before);
    const site = withItem(TEXT, ["sites"], { name: "Pool", depth: ["4 m", "8 m"] });
    expect(
      readSeries(site, "x")
        .sites.map(({ name, depth }) => [name, depth.most])
        .at(-1),
    ).toEqual(["Pool", 8]);
    const noDays = withoutItem(withoutItem(TEXT, ["days", 1]), ["days", 0]);
    expect(readSeries(noDays, "x").days).toEqual([]);
    const day = withItem(noDays, ["days"], { date: "2026-06-02", site: "Creek mouth", from: "09:00", to: "12:00" });
    expect(readSeries(day, "x").days).toHaveLength(1);
  });

  it("keeps any name as it was typed, whatever signs it has", () => {
    fc.assert(
      fc.property(
        fc
          .string({ minLength: 1, maxLength: 40 })
          .filter((name) => name.trim() !== "" && !/^-?\d+(\.\d+)?$/.test(name.trim())),
        (name) => {
          const text = withField(TEXT, ["anchors", 0, "name"], name);
          expect(formOf(text)!.at(["anchors", 0, "name"])).toBe(name.trim());
        },
      ),
    );
  });
});
