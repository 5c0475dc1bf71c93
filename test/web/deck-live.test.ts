import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { holdSoFar } from "../../src/study/index.ts";
import { holdEvents } from "../../src/web/deck/hold-events.ts";
import { LineStream } from "../../src/web/deck/live/line-stream.ts";
import { gapsOf, type LiveReading, thinned } from "../../src/web/deck/live/reading.ts";
import { withLive } from "../../src/web/deck/live/with-live.ts";
import { type DeckEvent, endOf, stepsHeld } from "../../src/web/deck/pull.ts";

const row = (n: number, at: number, load?: number): LiveReading => ({
  n,
  at,
  time_s: at / 1000,
  values: load === undefined ? { angle: 0.2 } : { load },
});

describe("readings of instruments in a pull", () => {
  const events: DeckEvent[] = [
    { kind: "step", step: 1, n: 0, at: 1000 },
    { kind: "load", newtons: 9000, n: 1, at: 1500 },
    { kind: "takenBack", of: 1, n: 2, at: 1600 },
    { kind: "gaveWay", n: 3, at: 5000 },
  ];
  const rows = [row(0, 500, 300), row(1, 1200, 980), row(2, 3000, 1010), row(3, 4000), row(4, 6000, 1500)];
  const all = withLive({ events }, rows);

  it("stand among the touches by their time, and what was taken back stays so", () => {
    const till = { events: withLive({ events: events.slice(0, 3) }, rows.slice(0, 4)).events };
    const question = { asked: 1000, rule: { heldFor: 8, heldWithin: 1 }, direction: null, give: null };
    expect(holdSoFar(holdEvents(till, rows), question).since).toBe(1.2);
    expect(endOf(all, 9000)).toMatchObject({ kind: "gaveWay", load: 1010 });
    expect(stepsHeld(all)).toEqual([
      { load_N: 300, duration_s: 0 },
      { load_N: 1010, duration_s: 4.8 },
    ]);
  });

  it("are shown twenty times a second at most, with the highest load of each stretch, none out of order", () => {
    const fast = fc.array(fc.integer({ min: 0, max: 5000 }), { minLength: 1, maxLength: 400 });
    fc.assert(
      fc.property(fast, (loads) => {
        const came = loads.map((load, n) => row(n, 1_000_000 + n, load));
        const kept = thinned(came);
        expect(kept.length).toBeLessThanOrEqual(Math.ceil(loads.length / 50) + 1);
        expect(kept.map(({ n }) => n)).toEqual(kept.map(({ n }) => n).sort((a, b) => a - b));
        expect(Math.max(...kept.map(({ values }) => values.load!))).toBe(Math.max(...loads));
      }),
    );
    // An angle that came with no load is no load of its stretch.
    expect(thinned([row(0, 1000, 5), row(1, 1001)])).toHaveLength(2);
  });

  it("have a gap where nothing came", () => {
    expect(gapsOf([row(0, 1000, 1), { ...row(1, 9000, 2), afterGap: true }])).toEqual([{ from: 1, to: 9 }]);
  });
});

describe("bytes of an instrument at the device", () => {
  const bytes = (text: string) => new TextEncoder().encode(text);
  const text = Array.from({ length: 30 }, (_, i) => `${100 + i}.5 lbf\r\n`).join("");

  it("are the same readings however they are cut; the first line may be half and is none", () => {
    // 1 lbf = 4.4482216152605 N, exact by definition.
    const expected = Array.from({ length: 29 }, (_, i) => (101.5 + i) * 4.4482216152605);
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 1, max: 60 }), { minLength: 1, maxLength: 80 }), (cuts) => {
        const stream = new LineStream("a cell");
        const found: number[] = [];
        let at = 0;
        for (const many of [...cuts, text.length]) {
          found.push(...stream.take(bytes(text.slice(at, at + many)), 5).map(({ values }) => values.load!));
          at += many;
        }
        expect(found).toHaveLength(29);
        found.forEach((value, i) => {
          expect(value).toBeCloseTo(expected[i]!, 9);
        });
        expect(stream.channels).toEqual([{ name: "load", quantity: "load", unit: "N", precision: "double" }]);
      }),
    );
  });

  it("are read alike after a break, from the first whole line on", () => {
    const first = new LineStream("a cell");
    first.take(bytes(text), 1);
    const again = new LineStream("a cell", first.plan);
    expect(again.take(bytes("7 lbf\r\n200 lbf\r\n"), 2).map(({ values }) => values.load)).toEqual([
      200 * 4.4482216152605,
    ]);
  });

  it("that are no readings are refused in one line, as in a log", () => {
    const stream = new LineStream("a cell");
    expect(() => stream.take(bytes("hello there\n".repeat(12)), 1)).toThrow(/^a cell: .*expected$/);
  });
});
