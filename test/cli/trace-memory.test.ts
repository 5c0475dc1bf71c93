import { spawnSync } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, test } from "vitest";
import { writeLargeLog } from "../../scripts/make-log.ts";
import { root } from "../support/command-line.ts";

let folder: string;
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "rodebench-memory-"));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const TELLS = 'process.on("exit", () => process.stderr.write("rss " + process.resourceUsage().maxRSS + "\\n"))';

/** Most memory that `trace` of a log held at a time, bytes: by a process of its own. */
function held(path: string): number {
  const { status, stderr, stdout } = spawnSync(
    process.execPath,
    ["--import", "tsx", "--import", `data:text/javascript,${TELLS}`, "src/cli/main.ts", "trace", path, "--json"],
    { cwd: root, encoding: "utf8", maxBuffer: 1 << 26 },
  );
  expect(stderr).toMatch(/^rss \d+$/m);
  expect(status).toBe(0);
  expect(JSON.parse(stdout)).toMatchObject({ format: "rodebench/traced@1" });
  return 1024 * Number(/rss (\d+)/.exec(stderr)![1]);
}

test("the memory that a reduction takes grows by less than two and a half bytes for each byte of its log", async () => {
  const [small, large] = [join(folder, "small.csv"), join(folder, "large.csv")];
  await writeLargeLog(small, 2000, 3);
  const bytes = await writeLargeLog(large, 1_600_000, 3);
  // Three columns of eight bytes a row of 25 (time, load, load without its zero), and what waits to be collected: 1.6
  // were seen, 3.9 where every step made a column of its own.
  expect(held(large) - held(small)).toBeLessThan(2.5 * bytes);
});
