/**
 * Makes data/examples/pulls/three-steps.csv: the log of a pull that never was. A seeded model pull with surge, noise,
 * a gauge that drifts, lone glitches and a wandering fix, at five readings a second, places once a second.
 *
 * node --import tsx scripts/make-pull-log.ts
 */
import { writeFileSync } from "node:fs";
import { simulatePull } from "../test/pull/trace/simulated-pull.ts";

const RATE = 5;
/** Where the invented quay lies: nowhere near any. */
const QUAY = { latitude: 45, longitude: -30 };

const { trace } = simulatePull({
  seed: 132,
  rate: RATE,
  track: true,
  top: 6000,
  surge: 0.012,
  noise: 0.003,
  spikes: 2,
});
const track = trace.track!;
const metres = 111_131.75;
const across = metres * Math.cos((QUAY.latitude * Math.PI) / 180);
const rows = [
  "# A model pull, made by scripts/make-pull-log.ts: no anchor was pulled",
  "time (s),load (N),latitude,longitude",
];
for (let i = 0; i < trace.time.length; i++) {
  const second = i % RATE === 0 ? i / RATE : -1;
  const place =
    second >= 0 && second < track.time.length
      ? `${(QUAY.latitude + track.north[second]! / metres).toFixed(7)},${(QUAY.longitude + track.east[second]! / across).toFixed(7)}`
      : ",";
  rows.push(`${trace.time[i]!.toFixed(1)},${trace.load[i]!.toFixed(0)},${place}`);
}
writeFileSync(new URL("../data/examples/pulls/three-steps.csv", import.meta.url), `${rows.join("\n")}\n`);
