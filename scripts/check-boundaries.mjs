// Import boundaries between the rooms of src/. A check that looked at no module has checked nothing, and fails.
import { spawnSync } from "node:child_process";

const cruise = spawnSync(
  process.execPath,
  [
    "node_modules/dependency-cruiser/bin/dependency-cruise.mjs",
    "src",
    "--config",
    ".dependency-cruiser.cjs",
    "--output-type",
    "json",
  ],
  {
    encoding: "utf8",
    maxBuffer: 1 << 28,
  },
);
if (cruise.stdout === "") {
  process.stderr.write(cruise.stderr);
  process.exit(1);
}
const { summary } = JSON.parse(cruise.stdout);
for (const violation of summary.violations) {
  const via = violation.cycle ? ` (${violation.cycle.map((step) => step.name).join(" → ")})` : "";
  process.stdout.write(
    `${violation.rule.severity} ${violation.rule.name}: ${violation.from} → ${violation.to}${via}\n`,
  );
}
process.stdout.write(`${summary.error} broken boundaries, ${summary.totalCruised} modules looked at\n`);
if (summary.error > 0 || summary.totalCruised === 0) process.exit(1);
