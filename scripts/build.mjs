// Builds the library and the command into dist/, and the bench into dist/web.
import { spawnSync } from "node:child_process";
import { chmodSync, existsSync, rmSync } from "node:fs";

function run(tool, args) {
  const { status } = spawnSync(process.execPath, [tool, ...args], { stdio: "inherit" });
  if (status !== 0) process.exit(status ?? 1);
}

rmSync("dist", { recursive: true, force: true });
run("node_modules/typescript/bin/tsc", ["-p", "tsconfig.build.json"]);
chmodSync("dist/cli/main.js", 0o755);
if (existsSync("src/web/index.html")) run("node_modules/vite/bin/vite.js", ["build", "--logLevel", "warn"]);
