/** Rides of a sweep over all cores: each thread is given the next ride as it has done one. Ctrl-c ends them where they are. */
import { Worker } from "node:worker_threads";
import { rideOfSweep, type Sweep, type SweepRow } from "../motion/index.ts";
import { built } from "./built.ts";

export interface SweepWork {
  readonly sweep: Sweep;
  /** Rides still to be done, asked for one at a time; undefined: none is left. */
  readonly next: () => Promise<number | undefined>;
  readonly done: (row: SweepRow) => Promise<void>;
  /** Share of the rides under way that is done, in rides. */
  readonly tell: (underWay: number) => void;
  readonly threads: number;
  readonly stop: AbortSignal;
}

export async function rideAll(work: SweepWork): Promise<void> {
  const shares = new Float64Array(work.threads);
  const tell = (thread: number, share: number): void => {
    shares[thread] = share;
    work.tell(shares.reduce((sum, one) => sum + one, 0));
  };
  // One thread asks at a time, so that no ride is handed out twice.
  let asking: Promise<number | undefined> = Promise.resolve(undefined);
  const next = (): Promise<number | undefined> => {
    asking = asking.then(() => (work.stop.aborted ? undefined : work.next()));
    return asking;
  };
  const one = built ? inThread : here;
  await Promise.all(
    Array.from({ length: built ? work.threads : 1 }, (_, thread) =>
      one({ ...work, next }, (share) => tell(thread, share)),
    ),
  );
}

async function here(work: SweepWork, tell: (share: number) => void): Promise<void> {
  for (let ride = await work.next(); ride !== undefined; ride = await work.next()) {
    // Lets a ctrl-c be heard between rides.
    await new Promise((go) => setImmediate(go));
    if (work.stop.aborted) return;
    await work.done(rideOfSweep(work.sweep, ride, tell));
    tell(0);
  }
}

async function inThread(work: SweepWork, tell: (share: number) => void): Promise<void> {
  const worker = new Worker(new URL("./sweep-worker.js", import.meta.url), { workerData: work.sweep });
  let settle: { resolve: (row: SweepRow | undefined) => void; reject: (error: unknown) => void } | undefined;
  worker.on("message", (message: { share?: number; row?: SweepRow }) => {
    if (message.share !== undefined) tell(message.share);
    if (message.row !== undefined) settle?.resolve(message.row);
  });
  worker.on("error", (error) => settle?.reject(error));
  const end = (): void => settle?.resolve(undefined);
  work.stop.addEventListener("abort", end, { once: true });
  try {
    for (let ride = await work.next(); ride !== undefined; ride = await work.next()) {
      const row = await new Promise<SweepRow | undefined>((resolve, reject) => {
        settle = { resolve, reject };
        if (work.stop.aborted) resolve(undefined);
        else worker.postMessage(ride);
      });
      if (row === undefined) return;
      await work.done(row);
      tell(0);
    }
  } finally {
    work.stop.removeEventListener("abort", end);
    await worker.terminate();
  }
}
