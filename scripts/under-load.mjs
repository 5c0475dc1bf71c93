// The tests beside busy loops: none may depend on how busy the machine is.
// `node scripts/under-load.mjs [-n 20] [TEST FILES…]` runs them, or all, beside so many loops.
import { spawn } from "node:child_process";

const argv = process.argv.slice(2);
let loops = 20;
if (argv[0] === "-n") {
  loops = Number(argv[1]);
  argv.splice(0, 2);
}
if (!Number.isInteger(loops) || loops < 0) {
  process.stderr.write("-n: a whole number of loops is expected\n");
  process.exit(2);
}
// Each ends by itself when this process is gone, however it went.
const loop = `const parent = process.ppid; for (;;) { const end = Date.now() + 500; while (Date.now() < end); if (process.ppid !== parent) process.exit(); }`;
const busy = Array.from({ length: loops }, () => spawn(process.execPath, ["-e", loop], { stdio: "ignore" }));
const tests = spawn(process.execPath, ["node_modules/vitest/vitest.mjs", "run", ...argv], { stdio: "inherit" });
tests.once("exit", (status, signal) => {
  for (const child of busy) child.kill();
  process.exitCode = signal === null ? (status ?? 1) : 1;
});
