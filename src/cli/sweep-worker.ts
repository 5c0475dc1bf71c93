/** Rides of a sweep in a thread of its own: the sweep comes as the thread's data, numbers of rides as messages, rows go back. */
import { parentPort, workerData } from "node:worker_threads";
import { rideOfSweep, type Sweep } from "../motion/index.ts";

const sweep = workerData as Sweep;
parentPort!.on("message", (ride: number) => {
  const row = rideOfSweep(sweep, ride, (share) => parentPort!.postMessage({ share }));
  parentPort!.postMessage({ row });
});
