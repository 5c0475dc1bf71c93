// Power cuts: a program works on a book while every write, sync and change of a name is recorded; then disks are built
// as a cut at any moment would leave them, and the book on each is opened, checked, and compared with what was told.
import { spawn } from "node:child_process";
import { existsSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import type { Job } from "../kill-job.ts";
import { faultsLeft, prepare } from "../kills.ts";
import { BYTES, Disk, type Fate, NAMES } from "./disk.ts";
import { readTrace } from "./trace.ts";

const room = () => (existsSync("/dev/shm") ? "/dev/shm" : tmpdir());

/** A recorded piece of work. */
export interface Recorded {
  readonly job: Job;
  readonly disk: Disk;
  /** What differs between the folder as the program left it and the recording played to its end: nothing, unless a call went by unseen. */
  readonly unseen: readonly string[];
}

/** Runs a job until it has told so many lines, and records all it does to its folder. */
export async function recordJob(child: string, recorder: string, job: Job, lines: number): Promise<Recorded> {
  const at = mkdtempSync(join(room(), "rodebench-power-"));
  const trace = `${at}.trace`;
  try {
    prepare(job, at);
    const before = contentsOf(at);
    await runUntil(child, recorder, job, at, trace, lines);
    const steps = readTrace(trace, at);
    const disk = new Disk(before, steps);
    const end = disk.cutBefore(steps.length, { bytes: "kept", names: "kept" }, () => 0);
    return { job, disk, unseen: differences(end, contentsOf(at)) };
  } finally {
    rmSync(at, { recursive: true, force: true });
    rmSync(trace, { force: true });
  }
}

/** The recorder kills the program once it has told "ready" and so many lines. */
function runUntil(child: string, recorder: string, job: Job, at: string, trace: string, lines: number): Promise<void> {
  const env = {
    ...process.env,
    LD_PRELOAD: recorder,
    RODEBENCH_TRACE: trace,
    RODEBENCH_TRACE_ROOT: at,
    RODEBENCH_TRACE_LINES: String(lines + 1),
  };
  const working = spawn(process.execPath, [child, job, at], { stdio: ["ignore", "ignore", "pipe"], env });
  let err = "";
  working.stderr.on("data", (bytes) => {
    err += bytes;
  });
  return new Promise((resolve, reject) => {
    working.on("error", reject);
    working.on("close", (_code, signal) => {
      if (signal === "SIGKILL") resolve();
      else reject(new Error(`${job} ended by itself: ${err}`));
    });
  });
}

/** Every file of a folder and its folders; null stands for a folder. */
function contentsOf(at: string): Map<string, Buffer | null> {
  const found = new Map<string, Buffer | null>();
  for (const entry of readdirSync(at, { withFileTypes: true, recursive: true })) {
    const path = join(entry.parentPath, entry.name);
    if (!path.endsWith("-shm")) found.set(path.slice(at.length + 1), entry.isDirectory() ? null : readFileSync(path));
  }
  return found;
}

function differences(a: ReadonlyMap<string, Buffer | null>, b: ReadonlyMap<string, Buffer | null>): string[] {
  return [...new Set([...a.keys(), ...b.keys()])].filter((path) => {
    const [one, other] = [a.get(path), b.get(path)];
    if (one === undefined || other === undefined) return true;
    return one === null || other === null ? one !== other : !one.equals(other);
  });
}

/** One power cut: where, what became of what was not synced, and what was lost or broken by it. */
export interface Cut {
  readonly job: Job;
  readonly step: number;
  readonly fate: Fate;
  /** Lines told before the cut. */
  readonly told: number;
  readonly faults: readonly string[];
}

/** Cuts the power at a moment and with a fate drawn, or at the ones given. */
export async function cutOnce(
  { job, disk }: Recorded,
  draw: () => number,
  given?: { readonly step: number; readonly fate: Fate },
): Promise<Cut> {
  const step = given?.step ?? anyStep(disk, draw);
  const fate = given?.fate ?? { bytes: oneOf(BYTES, draw), names: oneOf(NAMES, draw) };
  const at = mkdtempSync(join(room(), "rodebench-power-"));
  try {
    for (const [path, bytes] of disk.cutBefore(step, fate, draw)) {
      const file = join(at, path);
      mkdirSync(bytes === null ? file : dirname(file), { recursive: true });
      if (bytes !== null) writeFileSync(file, bytes);
    }
    const told = disk.toldBefore(step).slice(1);
    return { job, step, fate, told: told.length, faults: await faultsLeft(job, at, told) };
  } finally {
    rmSync(at, { recursive: true, force: true });
  }
}

/**
 * Any moment; as often, one just after something was told as done, when nothing has come to help it last; and as often,
 * one shortly after a name was changed, when names and bytes may part.
 */
function anyStep(disk: Disk, draw: () => number): number {
  const where = draw();
  if (where < 1 / 3 && disk.tellings.length > 0) return oneOf(disk.tellings, draw) + 1;
  if (where < 2 / 3 && disk.namings.length > 0)
    return Math.min(disk.steps, oneOf(disk.namings, draw) + 1 + Math.floor(draw() * 6));
  return Math.floor(draw() * (disk.steps + 1));
}

function oneOf<T>(list: readonly T[], draw: () => number): T {
  return list[Math.floor(draw() * list.length)]!;
}
