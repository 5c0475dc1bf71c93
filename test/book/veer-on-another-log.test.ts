/** Two devices on one pull: the rode was veered by a mark on one's log, the load was read on the other's. */
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, describe, expect, it } from "vitest";
import { newBook, veersBeside } from "../../src/book/index.ts";
import { logVerdicts } from "../../src/cli/compare-logs.ts";
import { readRig, settle } from "../../src/rode/index.ts";
import { pullCases } from "../../src/study/index.ts";
import { trialRode } from "../study/cases.ts";
import { rodebench } from "../support/command-line.ts";

const folder = mkdtempSync(join(tmpdir(), "two-logs-"));
const path = join(folder, "two.book");
const [FIRST, THEN] = [25, 37];
const START = Date.UTC(2031, 4, 3, 9) / 1000;

const book = newBook(path, { title: "Two devices" });
const rig = book.add("rig", { name: "Trial rode" });
const rigVersion = book.add("rigVersion", { rig, file: trialRode });
const pull = book.add("pull", { rigVersion, depth_m: 6, paidOut_m: FIRST, loadAt: "bow" });
// Slack, 1500 N held, eased to veer, 2500 N held, slack.
const loadAt = (t: number): number => (t < 20 || t > 180 ? 0 : t < 90 ? 1500 : t < 100 ? 300 : 2500);
function logOf(name: string, from: number, step: number, ofPull: string | null): string {
  const channels = [{ name: "load", quantity: "force", unit: "N", precision: "double" } as const];
  const { log } = book.logs.open({ name, channels, ...(ofPull === null ? {} : { pull: ofPull }) });
  const times = Float64Array.from({ length: Math.round(200 / step) }, (_, i) => from + i * step);
  book.logs.append(
    log,
    { times, columns: { load: times.map((t) => loadAt(t - from)) } },
    { from: 0, to: times.length },
  );
  book.logs.finish(log);
  return log;
}
const cell = logOf("cell at the bow", START, 0.1, pull);
const typed = logOf("typed at the stern", START + 5, 10, pull);
const veerOn = (log: string, from_s: number, paidOut_m: number): string =>
  book.add("mark", { log, kind: "step", from_s, origin: "by hand", detail: { paidOut_m }, remarks: "veer" });

afterAll(() => {
  book.close();
  rmSync(folder, { recursive: true });
});

describe("a veer marked on one log of a pull", () => {
  const mark = veerOn(typed, START + 95, THEN);

  it("is known to the others that ran then, and to no log of another pull or another time", () => {
    const later = logOf("the same cell, an hour later", START + 3600, 1, pull);
    const other = logOf("another pull's", START, 1, book.add("pull", {}));
    expect(veersBeside(book, cell)).toEqual([{ from: START + 95, paidOut: THEN }]);
    for (const id of [typed, later, other, logOf("of no pull", START, 1, null)])
      expect(veersBeside(book, id)).toEqual([]);
    book.hide(later);
  });

  it("gives the length out of what the other log says was held: the command, and what is compared", async () => {
    const answer = async () => {
      const { out, err, status } = await rodebench(["trace", cell, "--book", path, "--json"]);
      expect([status, err]).toEqual([0, ""]);
      return JSON.parse(out);
    };
    const settledAt = (paidOut: number, newtons: number) => {
      const text = trialRode.replace("length: 17 m", `length: ${paidOut - 20} m`);
      const settled = settle(readRig(text, "by hand"), { at: "bow", newtons });
      if (settled.kind !== "settled") throw new Error("an equilibrium is expected");
      return (settled.anchor.angleToBottom * 180) / Math.PI;
    };
    const veered = await answer();
    expect(veered.carried.angleToBottom_deg).toBeCloseTo(settledAt(THEN, veered.held.load_N), 6);
    const cases = () =>
      pullCases({
        pull: book.list("pull"),
        day: [],
        site: [],
        seabed: [],
        anchor: [],
        rigVersion: book.list("rigVersion"),
        series: [],
      });
    expect(logVerdicts(book, cases()).get(pull)?.paidOut).toBe(THEN);
    // Put aside, it says nothing any more.
    book.hide(mark);
    const unveered = await answer();
    expect(unveered.carried.angleToBottom_deg).toBeCloseTo(settledAt(FIRST, unveered.held.load_N), 6);
    expect(logVerdicts(book, cases()).get(pull)?.paidOut).toBeNull();
    expect(Math.abs(settledAt(FIRST, 2500) - settledAt(THEN, 2500))).toBeGreaterThan(3);
  });
});
