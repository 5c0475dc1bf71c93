import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { parseQuantity } from "../../src/quantity/index.ts";
import { formatQuantity, roundToUncertainty, significant, withMinus } from "../../src/web/controls/numbers.ts";

/** Typed into or kept: the hyphen of keyboards stands there. */
const TYPED = [
  "controls/numbers.ts",
  "controls/quantity-field.tsx",
  "days/fields/number-field.tsx",
  "readings/entry-row.tsx",
  "readings/pasted.ts",
];

describe("numbers as screens show them", () => {
  it("have a true minus sign, and read back as what they are", () => {
    expect(significant(-1.25, 3)).toBe("−1.25");
    expect(significant(Number.NEGATIVE_INFINITY)).toBe("−∞");
    expect(roundToUncertainty(-61.87, 8.8)).toEqual({ value: "−61.9", u: "8.8" });
    const shown = formatQuantity(-61.87, "force", { u: 8.8 });
    expect(shown).toBe("−61.9 ± 8.8 N");
    expect(parseQuantity(`${shown.split(" ±")[0]!} N`, "force", "x")).toBeCloseTo(-61.9, 10);
  });

  it("leave hyphens of words, dates, ranges, codes and powers of ten as they are", () => {
    for (const text of ["2026-11-27", "three-strand 16 mm", "day-2", "A-12", "5-7 m", "1e-7", "(2)-3"])
      expect(withMinus(text)).toBe(text);
    expect(withMinus("-5600 N to -1500 N (-0.5 ± 0.2 %)")).toBe("−5600 N to −1500 N (−0.5 ± 0.2 %)");
  });

  it("are made by one module: no screen takes the room's own formatter", () => {
    const files = readdirSync("src/web", { recursive: true, encoding: "utf8" })
      .map((name) => name.replaceAll("\\", "/"))
      .filter((name) => /\.tsx?$/.test(name) && !name.startsWith("viewer/") && !TYPED.includes(name));
    expect(files.length).toBeGreaterThan(200);
    const strays = files.filter((name) =>
      /import [^;]*\b(formatQuantity|significant|roundToUncertainty)\b[^;]*quantity\/index/.test(
        readFileSync(`src/web/${name}`, "utf8"),
      ),
    );
    expect(strays).toEqual([]);
  });
});
