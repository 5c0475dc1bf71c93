/**
 * Settles random rigs and works out anew how far each answer is from an equilibrium.
 *
 *     node --import tsx scripts/random-rigs.ts [COUNT] [SEED]
 *
 * Prints how the rigs ended, the largest residual and the rig it belongs to; ends with status 1 when one was left
 * unsettled or is off by more than 1e-9.
 */

import { settleTraced } from "../src/rode/index.ts";
import { rng } from "../src/statistics/index.ts";
import { offBy } from "../test/rode/off-by.ts";
import { randomPull, randomRig } from "../test/rode/random-rigs.ts";
import { unfounded } from "../test/rode/refusals.ts";

const count = Number(process.argv[2] ?? 1e6);
const seed = Number(process.argv[3] ?? 1);
const ends = new Map<string, number>();
let worst = 0;
let worstRig = "";
let wrong = 0;
let seconds = 0;
const tell = (text: string): void => void process.stdout.write(`${text}\n`);
const started = process.hrtime.bigint();
for (let i = 0; i < count; i++) {
  const random = rng(seed * 1e9 + i);
  const rig = randomRig(random);
  const pull = randomPull(random, rig);
  const before = process.hrtime.bigint();
  const answer = settleTraced(rig, pull);
  seconds += Number(process.hrtime.bigint() - before) / 1e9;
  const end = "settled" in answer ? "settled" : `none: ${answer.cause}`;
  ends.set(end, (ends.get(end) ?? 0) + 1);
  if ("settled" in answer) {
    const residual = offBy(rig, pull, answer);
    if (residual.worst > worst) {
      worst = residual.worst;
      worstRig = `rig ${i} of seed ${seed}: ${residual.which}`;
    }
    if (!(residual.worst <= 1e-9) && wrong++ < 20) tell(`rig ${i}: ${residual.which} off by ${residual.worst}`);
  } else {
    const why = unfounded(rig, pull, answer);
    if (why !== null && wrong++ < 20) tell(`rig ${i}: refused as ${answer.cause}, but ${why}`);
  }
}
const all = Number(process.hrtime.bigint() - started) / 1e9;
for (const [end, n] of [...ends].sort((a, b) => b[1] - a[1])) tell(`${String(n).padStart(9)}  ${end}`);
tell(`largest residual ${worst.toExponential(2)} (${worstRig}); wrong or unsettled: ${wrong}`);
tell(`${all.toFixed(1)} s, of which ${((seconds / count) * 1e6).toFixed(1)} µs a rig in settle`);
if (wrong > 0) process.exitCode = 1;
