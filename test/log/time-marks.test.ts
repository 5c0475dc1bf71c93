/** Marks of a video or a table: cues and rows, each with its times in seconds and its words. */
import { describe, expect, test } from "vitest";
import { readMarkTable, readWebVtt } from "../../src/log/time-marks.ts";

describe("cues", () => {
  const cues = (text: string) => readWebVtt(`WEBVTT\n\n${text}`, "dive.vtt");
  test("have hours or none, points or commas, and words without tags", () => {
    expect(
      cues(
        "00:01.500 --> 00:02.000\n<v Helm>slack &amp; <i>still</i>\n\n2\n1:02:03,250 --> 1:02:04.000 align:start\ntwo\nlines\n\n100:00:00.000 --> 100:00:01.000\n\n",
      ),
    ).toEqual({
      kind: "marks",
      clock: "elapsed",
      marks: [
        { from: 1.5, to: 2, text: "slack & still" },
        { from: 3723.25, to: 3724, text: "two lines" },
        { from: 360_000, to: 360_001, text: "" },
      ],
      troubles: [],
    });
    expect(cues("00:01.000 --> 00:02.000\n&lt;a&gt;&nbsp;b&lrm;&rlm;&copy;\n").marks[0]!.text).toBe("<a> b&copy;");
  });
  test("that end no later than they begin, or have no such time, are told by their line", () => {
    const read = cues(
      "00:01.000 --> 00:02.000\na\n\n00:03.000 --> 00:03.000\nb\n\n00:75.000 --> 00:76.000\nc\n\n61:00.000 --> 62:00.000\nd\n",
    );
    expect(read.marks.map(({ text }) => text)).toEqual(["a"]);
    expect(read.troubles.map(({ line }) => line)).toEqual([6, 9, 12]);
    expect(() => cues("00:03.000 --> 00:03.000\nb\n")).toThrow("dive.vtt: line 3");
    expect(() => cues("NOTE nothing\n")).toThrow("no cues");
    expect(() => readWebVtt("WEBVTTX\n", "dive.vtt")).toThrow("line 1");
    expect(() => readWebVtt("", "dive.vtt")).toThrow("line 1");
    expect(readWebVtt("\ufeffWEBVTT\tdive\n\n00:01.000 --> 00:02.000\na\n", "x").marks).toHaveLength(1);
  });
});

describe("a table of marks", () => {
  const marks = (text: string) => readMarkTable(text)?.marks.map(({ from, to, text: words }) => [from, to, words]);
  test("has a column of times and one of words, in whichever order, parted by any sign", () => {
    for (const text of [
      "time,mark\n0:05,slack\n0:15,pull\n",
      "mark,time\nslack,0:05\npull,0:15\n",
      "Note;Start\nslack;0:05\npull;0:15\n",
      "#\tAt\tWhat\n1\t0:05\tslack\n2\t0:15\tpull\n",
      "\ufefflog of a dive\n\ntimecode|event\n0:05|slack\n0:15|pull\n",
    ])
      expect(marks(text), text).toEqual([
        [5, null, "slack"],
        [15, null, "pull"],
      ]);
  });
  test("may have ends, which lie no earlier than their beginnings", () => {
    expect(marks("from,to,label\n0:05,0:09,slack\n0:15,0:12,pull\n0:20,0:20,drag\n0:30,,end\n")).toEqual([
      [5, 9, "slack"],
      [15, null, "pull"],
      [20, 20, "drag"],
      [30, null, "end"],
    ]);
  });
  test("has the clock its times have", () => {
    const clock = (stamp: string) => readMarkTable(`time,mark\n${stamp},slack\n`)?.clock;
    expect([
      clock("0:05"),
      clock("12:30:05"),
      clock("2024-05-03 12:30:05"),
      clock("2024-05-03T12:30:05Z"),
      clock("1714737605"),
    ]).toEqual([...["elapsed", "elapsed", "local", "utc", "utc"]]);
    // A time of day is so far into the video.
    expect(marks("time,mark\n12:30:05,slack\n12:30:09,pull\n")![0]).toEqual([45_005, null, "slack"]);
  });
  test("tells a row whose time it cannot read, and is none without one it can", () => {
    const read = readMarkTable("time,mark\n0:05,slack\n0:07,a\n0:09,b\n0:11,c\n0:13,d\nsoon,pull\n0:20,drag\n")!;
    expect(read.marks).toHaveLength(6);
    expect(read.troubles).toEqual([{ line: 7, value: "soon,pull", expected: "a time as elapsed-clock is expected" }]);
  });
  test("is no table of readings, nor one whose words are numbers", () => {
    for (const text of [
      "time,mark,load\n0:05,slack,3\n",
      "time,mark\n0:05,12\n0:07,13\n",
      "time\n0:05\n",
      "mark,words\na,b\n",
      "time,load\n0,1\n",
      "",
    ])
      expect(readMarkTable(text), text).toBeNull();
    expect(marks("time,mark\n0:05,12\n0:07,slack\n0:09,pull\n")).toHaveLength(3);
  });
});
