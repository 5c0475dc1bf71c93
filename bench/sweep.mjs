/**
 * Many rides at once, as `rodebench sweep` runs them from what is built:
 *  (a) two threads beside one: the same file, in turn, the least time of each;
 *  (b) the most memory a sweep takes with few rides and with many: it must not grow with their number.
 *
 *     npm run build && node bench/sweep.mjs
 */
import { spawnSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join, resolve } from "node:path";
import { fileURLToPath } from "node:url";

const root = resolve(dirname(fileURLToPath(import.meta.url)), "..");
const folder = mkdtempSync(join(tmpdir(), "bench-sweep-"));
const [TURNS, RIDES, HOURS] = [3, 12, 0.5];
const [FEW, MANY, SHORT] = [50, 500, 0.02];

/** Rides of one rig and boat by so many seeds. @returns wall time, s, and the most memory in use, MB */
function sweep(rides, hours, threads) {
  const file = join(folder, "rides.yaml");
  const text = [
    "format: rodebench/sweep@1",
    "name: Bench",
    `rigs: [${join(root, "data/demo/marsh-tern-rode.yaml")}]`,
    `boats: [${join(root, "data/boats/marsh-tern.yaml")}]`,
    `weather: [{ name: fresh, wind: 18 kn, sea: "0.4 m, 2.8 s" }]`,
    `seeds: 1..${rides}`,
    `hours: ${hours}`,
    // Of rides that only count, the shortest that can be: what is asked there is not how a rode moves.
    ...(hours === SHORT ? ["elements: 5"] : []),
  ];
  writeFileSync(file, `${text.join("\n")}\n`);
  const into = join(folder, "rides");
  rmSync(into, { recursive: true, force: true });
  const told = 'process.on("exit",()=>console.error("MOST "+process.resourceUsage().maxRSS))';
  const command = ["--import", `data:text/javascript,${encodeURIComponent(told)}`, join(root, "dist/cli/main.js")];
  const began = performance.now();
  const run = spawnSync(process.execPath, [...command, "sweep", file, "--threads", String(threads), "--into", into], {
    encoding: "utf8",
  });
  const seconds = (performance.now() - began) / 1000;
  if (run.status !== 0) throw new Error(run.stderr);
  return { seconds, most: Number(/MOST (\d+)/.exec(run.stderr)[1]) / 1024 };
}

try {
  const turns = Array.from({ length: TURNS }, () => [1, 2].map((threads) => sweep(RIDES, HOURS, threads).seconds));
  const [one, two] = [0, 1].map((k) => Math.min(...turns.map((turn) => turn[k])));
  console.log(
    `${RIDES} rides: one thread ${one.toFixed(1)} s, two ${two.toFixed(1)} s: ${(one / two).toFixed(2)} times as fast`,
  );
  const [few, many] = [FEW, MANY].map((rides) => sweep(rides, SHORT, 2).most);
  console.log(`most memory with ${FEW} rides ${few.toFixed(0)} MB, with ${MANY} rides ${many.toFixed(0)} MB`);
} finally {
  rmSync(folder, { recursive: true, force: true });
}
