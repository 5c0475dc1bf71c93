import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { uniformFloat64 } from "pure-rand/distribution/uniformFloat64";
import { xoroshiro128plus } from "pure-rand/generator/xoroshiro128plus";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { type Job, jobNames } from "../kill-job.ts";
import { buildChild } from "../kills.ts";
import { type Cut, cutOnce, type Recorded, recordJob } from "./cuts.ts";
import { Disk } from "./disk.ts";
import { buildRecorder, type Step } from "./trace.ts";

const folder = mkdtempSync(join(tmpdir(), "rodebench-recorder-"));
const recorder = buildRecorder(folder);
const why = "why" in recorder ? `: not run, ${recorder.why}` : "";

afterAll(() => rmSync(folder, { recursive: true, force: true }));

const say = (text: string): Step => ({ kind: "say", text });
const open = (fd: number, path: string): Step => ({ kind: "open", fd, path, folder: path === "", emptied: false });
const write = (fd: number, text: string, offset = 0): Step => ({ kind: "write", fd, offset, bytes: Buffer.from(text) });
const sync = (fd: number): Step => ({ kind: "sync", fd });
const never = () => 0.99;

describe("a disk after a power cut", () => {
  const disk = (...steps: Step[]) => new Disk(new Map([["kept", Buffer.from("old")]]), steps);
  const left = (d: Disk, bytes: "lost" | "kept", names: "lost" | "kept") =>
    Object.fromEntries([...d.cutBefore(d.steps, { bytes, names }, never)].map(([path, b]) => [path, b?.toString()]));

  it("has lost bytes until their file is synced, and a name until its folder is", () => {
    const made = [open(5, "new"), write(5, "text")];
    expect(left(disk(...made), "lost", "lost")).toEqual({ kept: "old" });
    expect(left(disk(...made), "lost", "kept")).toEqual({ kept: "old", new: "" });
    expect(left(disk(...made, sync(5)), "lost", "lost")).toEqual({ kept: "old" });
    expect(left(disk(...made, sync(5), open(6, ""), sync(6)), "lost", "lost")).toEqual({ kept: "old", new: "text" });
  });

  it("may hold the name of a rename before the bytes it stands for, and forgets a name dropped without its folder's sync", () => {
    const renamed: Step[] = [open(5, "new"), write(5, "text"), { kind: "rename", from: "new", to: "kept" }];
    expect(left(disk(...renamed), "lost", "kept")).toEqual({ kept: "" });
    expect(left(disk(...renamed), "kept", "lost")).toEqual({ kept: "old" });
    expect(left(disk({ kind: "unlink", path: "kept" }), "kept", "lost")).toEqual({ kept: "old" });
  });

  it("may hold some sectors of a write and not others, and nothing torn of what was synced", () => {
    const letters = "ab".repeat(1024);
    const torn = (...after: Step[]) => {
      const d = disk(open(5, "kept"), write(5, letters), ...after);
      let turn = 0;
      // The write is kept, and every second sector of it.
      const draw = () => (turn++ % 2 === 0 ? 0.99 : 0.01);
      return d.cutBefore(d.steps, { bytes: "torn 512", names: "lost" }, draw).get("kept")!;
    };
    const found = torn();
    expect(found.length).toBeGreaterThan(0);
    expect(found.toString()).not.toBe(letters);
    expect(torn(sync(5)).toString()).toBe(letters);
  });

  it("knows what was told before the cut, and no line cut short", () => {
    expect(disk(say("ready\n"), say("1\n2"), say("\n")).toldBefore(2)).toEqual(["ready", "1"]);
  });
});

// scripts/power-cuts.ts does the same a thousand times and more.
describe.skipIf("why" in recorder)(`a power cut at any moment${why}`, () => {
  const CUTS = 9;
  let child: { path: string; remove(): void };
  const recorded = new Map<Job, Recorded>();
  beforeAll(async () => {
    child = await buildChild();
    for (const job of jobNames)
      recorded.set(
        job,
        await recordJob(child.path, "library" in recorder ? recorder.library : "", job, job === "migrate" ? 9 : 8),
      );
  });
  afterAll(() => child?.remove());

  async function cuts(of: Recorded, count: number, seed: number): Promise<Cut[]> {
    const rng = xoroshiro128plus(seed);
    const made: Cut[] = [];
    for (let i = 0; i < count; i++) made.push(await cutOnce(of, () => uniformFloat64(rng)));
    return made;
  }

  it.each(jobNames)("loses nothing told as done, and leaves a sound book: %s", async (job) => {
    const of = recorded.get(job)!;
    // Every byte and name the program left is explained by what was recorded: no call went by unseen.
    expect(of.unseen).toEqual([]);
    const made = await cuts(of, CUTS, 20310518);
    expect(made.filter((cut) => cut.faults.length > 0)).toEqual([]);
    expect(made.filter((cut) => cut.told > 0).length).toBeGreaterThan(0);
  });

  it("keeps the first backup of all, though nothing else has the disk keep the name of its folder", async () => {
    const of = recorded.get("backup")!;
    const step = of.disk.tellings[1]! + 1;
    for (const names of ["lost", "some", "first"] as const)
      expect(await cutOnce(of, never, { step, fate: { bytes: "lost", names } })).toMatchObject({ told: 1, faults: [] });
  });

  it("is noticed on a disk that keeps nothing it was told to sync", async () => {
    const noticed: Job[] = [];
    for (const [job, of] of recorded) {
      const disk = of.disk.withoutSyncs();
      const step = disk.tellings.at(-1)! + 1;
      const cut = await cutOnce({ ...of, disk }, never, { step, fate: { bytes: "lost", names: "lost" } });
      if (cut.faults.length > 0) noticed.push(job);
    }
    // A restore or a migration wholly forgotten leaves the book as it was, with all that was told of it.
    expect(noticed).toEqual(jobNames.filter((job) => job !== "restore" && job !== "migrate"));
  });
});
