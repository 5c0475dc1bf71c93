import { describe, expect, test } from "vitest";
import { vagueZone, zoneIn, zoneOf } from "../../src/log/zone-name.ts";

/** Offset that the runtime's own tz database gives a place at a moment, s east of UTC. */
function offsetOf(place: string, moment: number): number {
  const parts = new Intl.DateTimeFormat("en-US", {
    timeZone: place,
    hourCycle: "h23",
    year: "numeric",
    month: "numeric",
    day: "numeric",
    hour: "numeric",
    minute: "numeric",
    second: "numeric",
  }).formatToParts(moment);
  const of = (type: string) => Number(parts.find((part) => part.type === type)!.value);
  return (Date.UTC(of("year"), of("month") - 1, of("day"), of("hour"), of("minute"), of("second")) - moment) / 1000;
}

const JANUARY = Date.UTC(2024, 0, 15);
const JULY = Date.UTC(2024, 6, 15);

// The clock of a place where the name is in use, by the tz database that the runtime carries; which name goes with which
// place and half of the year is recalled.
test.each<[string, string, number]>([
  ["UTC", "UTC", JULY],
  ["GMT", "Europe/London", JANUARY],
  ["WET", "Europe/Lisbon", JANUARY],
  ["WEST", "Europe/Lisbon", JULY],
  ["CET", "Europe/Paris", JANUARY],
  ["MEZ", "Europe/Berlin", JANUARY],
  ["CEST", "Europe/Paris", JULY],
  ["MESZ", "Europe/Berlin", JULY],
  ["EET", "Europe/Athens", JANUARY],
  ["EEST", "Europe/Athens", JULY],
  ["MSK", "Europe/Moscow", JULY],
  ["SAST", "Africa/Johannesburg", JULY],
  ["NST", "America/St_Johns", JANUARY],
  ["NDT", "America/St_Johns", JULY],
  ["ADT", "America/Halifax", JULY],
  ["EST", "America/New_York", JANUARY],
  ["EDT", "America/New_York", JULY],
  ["CDT", "America/Chicago", JULY],
  ["MST", "America/Denver", JANUARY],
  ["MDT", "America/Denver", JULY],
  ["PST", "America/Los_Angeles", JANUARY],
  ["PDT", "America/Los_Angeles", JULY],
  ["AKST", "America/Anchorage", JANUARY],
  ["AKDT", "America/Anchorage", JULY],
  ["HST", "Pacific/Honolulu", JULY],
  ["AWST", "Australia/Perth", JULY],
  ["ACST", "Australia/Darwin", JULY],
  ["ACDT", "Australia/Adelaide", JANUARY],
  ["AEST", "Australia/Brisbane", JULY],
  ["AEDT", "Australia/Sydney", JANUARY],
  ["NZST", "Pacific/Auckland", JULY],
  ["NZDT", "Pacific/Auckland", JANUARY],
  ["JST", "Asia/Tokyo", JULY],
  ["KST", "Asia/Seoul", JULY],
])("%s is the clock of %s", (name, place, moment) => {
  expect(zoneOf(name)).toBe(offsetOf(place, moment));
  expect(zoneOf(name.toLowerCase())).toBe(offsetOf(place, moment));
});

test.each(["CST", "IST", "BST", "AST"])("%s names several zones and is asked", (name) => {
  expect(zoneOf(name)).toBeNull();
  expect(vagueZone(`2024-05-03 12:34:56 ${name}`)).toBe(name);
  expect(vagueZone(`${name} 12`)).toBe("");
});
test("a name of one zone is not vague", () => expect(vagueZone("12:34:56 CEST")).toBe(""));

describe("a zone in a title or a line above the table", () => {
  test.each<[string, number]>([
    ["Time (GMT-07:00)", -7 * 3600],
    ["Time (UTC+5:30)", 5.5 * 3600],
    ["Time (UTC+0545)", 5.75 * 3600],
    ["Time [+02:00]", 2 * 3600],
    ["Time (−03:30)", -3.5 * 3600],
    ["Zeit UTC+2", 2 * 3600],
    ["Time, CEST", 2 * 3600],
    ["Time (utc)", 0],
    ["zulu time", 0],
  ])("%s is %i s", (text, seconds) => expect(zoneIn(text)).toBe(seconds));
  test.each(["Time", "Load (+15)", "Time (UTC+2:75)", "Time (CST)", "Load -10"])("%s states none", (text) =>
    expect(zoneIn(text) ?? 0).toBe(0),
  );
  test("an hour past 14 is no zone", () => expect(zoneIn("Load (+15)")).toBeUndefined());
});
