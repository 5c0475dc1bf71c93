import { describe, expect, it } from "vitest";
import { type TracedChannel, traceSvg, traceTable } from "../../src/web/days/log/trace-files.ts";

const load: TracedChannel = {
  name: "load",
  unit: "kN",
  measured: true,
  // A silence between the third and the fifth second breaks the line.
  data: { x: [0, 1, 2, 3.5, 5, 6], min: [0, 1, 2, null, 4, 4.5], max: [0, 1.5, 2, null, 4.25, 4.5] },
};
const wind: TracedChannel = {
  name: "wind",
  unit: "kn",
  measured: false,
  data: { x: [0, 6], min: [9, 11], max: [9, 11] },
};

describe("a trace that leaves the bench", () => {
  it("is a table of what is in view: each stretch with its least and greatest, and no row for a silence", () => {
    expect(traceTable([load, wind], { from: 1, to: 5 })).toEqual({
      columns: ["channel", "time, s", "least", "greatest"],
      rows: [
        ["load, kN", 1, 1, 1.5],
        ["load, kN", 2, 2, 2],
        ["load, kN", 5, 4, 4.25],
      ],
    });
  });
  it("of a log that has a date counts from 1970 and says so", () => {
    const at = Date.UTC(2031, 4, 3, 9) / 1000;
    const dated = { ...wind, data: { x: [at], min: [9], max: [9] } };
    expect(traceTable([dated], { from: at, to: at + 1 })).toMatchObject({
      columns: ["channel", "time, s since 1970 UTC", "least", "greatest"],
      rows: [["wind, kn", at, 9, 9]],
    });
    expect(traceSvg("Trace", [dated], [], { from: at, to: at + 10 })).toContain("2031-05-03 09:00:00 UTC");
  });
  it("is a drawing with each channel, its unit and the marks in view, and no number that is none", () => {
    const marks = [
      { at: 2, text: "plateau 2 kN" },
      { at: 90, text: "drag" },
    ];
    const svg = traceSvg("Trace of a pull", [load, wind], marks, { from: 0, to: 6 });
    for (const text of ["Trace of a pull", "load, kN", "wind, kn", "plateau 2 kN"]) expect(svg).toContain(text);
    expect(svg).not.toContain("drag");
    expect(svg).not.toContain("NaN");
  });
});
