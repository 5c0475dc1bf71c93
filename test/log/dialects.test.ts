import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { exampleLogs } from "../../scripts/make-log.ts";
import { choices, guessed, readAll } from "./read-table.ts";

const FOLDER = "data/examples/logs";

describe.each(exampleLogs())("the log $file", ({ file, bytes, times, loads, clock, told }) => {
  test("stands in the examples as the script makes it", () => {
    expect(Buffer.compare(readFileSync(`${FOLDER}/${file}`), bytes)).toBe(0);
  });

  test(told === undefined ? "is read without being told anything" : "asks before it is read", () => {
    const guess = guessed(bytes);
    if (told === undefined) expect(guess.questions).toEqual([]);
    else {
      expect(guess.plan).toBeNull();
      expect(guess.questions.length).toBeGreaterThan(0);
    }
  });

  test.each([[bytes.length], [1000], [7]])(
    "gives the true load at the true times, handed over %i bytes at a time",
    (piece) => {
      const { plan } = guessed(bytes, choices(told ?? []));
      const read = readAll(bytes, plan!, piece);
      expect(plan!.time.clock).toBe(clock);
      expect(read.times.length).toBe(times.length);
      const load = read.values[plan!.values.findIndex((v) => v.channel.name === "load")]!;
      for (let i = 0; i < times.length; i++) {
        // Times are written to the millisecond at the finest; a double of seconds since 1970 holds 2.4e-7 s.
        expect(Math.abs(read.times[i]! - times[i]!)).toBeLessThanOrEqual(1e-5);
        // The same digits times the same exact factor: two roundings of a double at most.
        expect(Math.abs(load[i]! - loads[i]!)).toBeLessThanOrEqual(4e-16 * loads[i]!);
      }
    },
  );
});
