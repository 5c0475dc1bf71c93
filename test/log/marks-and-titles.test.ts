/** Which mark parts decimals, judged from cells that prove it or leave it open; and what titles speak for in each language. */
import { describe, expect, test } from "vitest";
import { guessMarks, isContinental } from "../../src/log/marks.ts";
import { readTitle, speaksFor } from "../../src/log/title.ts";

describe("the mark of decimals", () => {
  const guess = (cells: string[], delimiter: "," | ";" | "\t" = ";", hints = {}) => {
    const { decimal, grouping, open, unseen } = guessMarks(cells, delimiter, hints);
    return { value: decimal.value, sure: decimal.confidence, why: decimal.why.kind, grouping, open, unseen };
  };
  test.each<[claim: string, cells: string[], value: string, sure: number, why: string, grouping: string, open: string]>(
    [
      ["a point before one digit", ["1.5", "2"], ".", 1, "cellProvesMark", "", ""],
      ["a comma before two", ["1,25"], ",", 1, "cellProvesMark", "", ""],
      ["a comma before four", ["1,2345"], ",", 1, "cellProvesMark", "", ""],
      ["a nought before the mark: no thousands", ["0.125"], ".", 1, "cellProvesMark", "", ""],
      ["four digits before the mark: no thousands", ["1234.567"], ".", 1, "cellProvesMark", "", ""],
      ["both in one number, the later", ["1,234.5"], ".", 1, "cellProvesMark", ",", ""],
      ["both in one number, the other way", ["1.234,5"], ",", 1, "cellProvesMark", ".", ""],
      ["one twice: it parts thousands", ["1.234.567"], ",", 1, "cellProvesMark", ".", ""],
      ["the other twice", ["1,234,567"], ".", 1, "cellProvesMark", ",", ""],
      ["blanks part thousands", ["12 345,5"], ",", 1, "cellProvesMark", " ", ""],
      ["apostrophes part thousands", ["12'345.5"], ".", 1, "cellProvesMark", "'", ""],
      ["proof beside what is open: the open one parts thousands", ["1,5", "1.122"], ",", 1, "cellProvesMark", ".", "."],
      ["the same the other way", ["1.5", "1,122"], ".", 1, "cellProvesMark", ",", ","],
      ["proof of both: it is asked", ["1.5", "2,5"], ".", 0.5, "bothMarks", "", ""],
      ["both open: it is asked", ["1.122", "2,122"], ".", 0.5, "bothMarks", "", "."],
      ["one open: it is asked", ["1.122"], ".", 0.5, "markBeforeThree", "", "."],
      ["the other open", ["1,122"], ",", 0.5, "markBeforeThree", "", ","],
      ["whole numbers", ["12", "987"], ".", 0.9, "noDecimals", "", ""],
      ["no numbers", ["none", "2024-05-03"], ".", 0.9, "noDecimals", "", ""],
    ],
  )("%s: %j", (_, cells, value, sure, why, grouping, open) => {
    expect(guess(cells)).toEqual({ value, sure, why, grouping, open, unseen: why === "noDecimals" });
  });

  test("left open in a file parted by commas it is the point, unless something speaks against it", () => {
    expect(guess(["1.122"], ",")).toMatchObject({ value: ".", sure: 0.9, why: "pointsAmongCommas" });
    // Whole numbers of three digits beside, a title in a language of decimal commas, a comma that is open, no commas.
    expect(guess(["1.122", "987"], ",")).toMatchObject({ sure: 0.5, why: "markBeforeThree" });
    expect(guess(["1.122"], ",", { continental: true })).toMatchObject({ sure: 0.5, why: "markBeforeThree" });
    expect(guess(["1,122"], ",")).toMatchObject({ value: ",", sure: 0.5, why: "markBeforeThree" });
    expect(guess(["1.122"], "\t")).toMatchObject({ sure: 0.5, why: "markBeforeThree" });
  });
  test("in kilonewtons it is no thousands, unless hundreds stand beside", () => {
    for (const cell of ["1.122", "1,122"]) {
      expect(guess([cell], ";", { large: true })).toMatchObject({
        value: cell[1],
        sure: 0.9,
        why: "tooLargeForThousands",
      });
      expect(guess([cell, "987"], ";", { large: true })).toMatchObject({ sure: 0.5, why: "markBeforeThree" });
    }
  });
  test("what the question shows is the cell it is about, and the whole number beside it", () => {
    expect(guessMarks(["3", "1.122", "2.5e3", "987"], ";").decimal.why).toMatchObject({
      kind: "cellProvesMark",
      cell: "2.5e3",
    });
    expect(guessMarks(["3", "1.122", "987", "988"], ";").decimal.why).toEqual({
      ...{ kind: "markBeforeThree", mark: ".", cell: "1.122", beside: "987" },
    });
    expect(guessMarks(["1.122"], ";").decimal.why).toMatchObject({ beside: null });
    expect(guessMarks(["1.5", "2,25"], ";").decimal.why).toEqual({ kind: "bothMarks", point: "1.5", comma: "2,25" });
  });
  test("titles of the continent are known as such", () => {
    expect([isContinental(["Zeit", "Zugkraft"]), isContinental(["Time", "Load"])]).toEqual([true, false]);
  });
});

// Words for the quantities in the languages load cells are sold in, by dictionary (recalled).
const titles: Readonly<Record<string, readonly string[]>> = {
  unit: ["Unit", "Units", "UoM", "Einheit", "Unité", "Unidad", "Eenheid"],
  trueWindSpeed: ["True wind speed", "TWS"],
  trueWindAngle: ["True wind angle", "TWA"],
  windDirection: ["TWD", "Wind direction", "Windrichtung", "True wind dir"],
  windSpeed: ["Wind speed", "AWS", "Apparent wind speed", "Windgeschwindigkeit", "Apparent wind"],
  windAngle: ["AWA", "Wind angle", "Rel wind angle"],
  latitude: ["Lat", "Latitude", "Breite"],
  longitude: ["Lon", "Lng", "Longitude"],
  speed: ["SOG", "Speed over ground", "Ground speed", "Speed"],
  course: ["COG", "Course over ground", "Track"],
  headingTrue: ["Heading (true)", "HDG true", "HDT"],
  heading: ["Heading", "HDM", "Compass"],
  depth: ["Depth", "DBT", "Water depth", "Tiefe", "Wassertiefe", "Profondeur", "Profundidad", "Profondità", "Diepte"],
  time: [
    "Time",
    "Zeit",
    "Uhrzeit",
    "Heure",
    "Hora",
    "Tempo",
    "Ora",
    "Tijd",
    "Tid",
    "UTC",
    "Timestamp",
    "Date Time",
    "Zeitstempel",
    "Horodatage",
    "Fecha y hora",
    "Elapsed",
    "Run time",
    "Laufzeit",
  ],
  date: ["Date", "Datum", "Fecha", "Data", "Dato"],
  count: ["#", "No.", "Nr.", "Number", "Sample", "Record", "Row", "Index", "Messung", "lfd. Nr."],
  load: [
    "Force",
    "Load",
    "Tension",
    "Pull",
    "Kraft",
    "Zugkraft",
    "Effort",
    "Traction",
    "Fuerza",
    "Carga",
    "Tensión",
    "Forza",
    "Carico",
    "Kracht",
    "Trekkracht",
    "Load cell 2",
    "F1",
  ],
  angle: ["Angle", "Ángulo", "Inclination", "Tilt", "Pitch", "Winkel", "Neigung"],
  movement: ["Movement", "Displacement", "Travel", "Stroke", "Weg", "Déplacement", "Desplazamiento"],
  other: [
    "Peak load",
    "Max force",
    "Load limit",
    "Sollkraft",
    "Battery",
    "Temp",
    "Status",
    "Voltage",
    "Load offset",
    "Tare",
    "Colour",
  ],
};
describe("a title", () => {
  test.each(Object.entries(titles))("speaks for %s: %j", (kind, all) => {
    for (const title of all) {
      const speaks = speaksFor(readTitle(title));
      expect(speaks.for, title).toBe(kind);
      // Below 0.6 it would be asked what stands there.
      if (speaks.for !== "other") {
        expect(speaks.confidence, title).toBeGreaterThanOrEqual(0.7);
        expect(speaks.confidence, title).toBeLessThanOrEqual(1);
      }
    }
  });
});
