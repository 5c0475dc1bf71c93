import { existsSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { xoroshiro128plus } from "pure-rand/generator/xoroshiro128plus";
import { afterEach } from "vitest";
import type { Ports } from "../../src/record/index.ts";

const folders: string[] = [];

/** A folder of its own for a test, removed after it; in memory where the system offers that, as books wait for the disk often. */
export function folder(): string {
  const path = mkdtempSync(join(existsSync("/dev/shm") ? "/dev/shm" : tmpdir(), "rodebench-book-"));
  folders.push(path);
  return path;
}

afterEach(() => {
  for (const path of folders.splice(0)) rmSync(path, { recursive: true, force: true });
});

/** Time and chance that repeat exactly: the clock moves on a second each time it is asked. */
export function steadyPorts(
  seed = 1,
  start = Date.parse("2031-05-17T08:00:00Z"),
  step = 1000,
): Ports & { now: number } {
  const generator = xoroshiro128plus(seed);
  const ports = {
    now: start,
    clock: () => {
      ports.now += step;
      return ports.now;
    },
    random: (count: number) => Uint8Array.from({ length: count }, () => generator.next() & 0xff),
  };
  return ports;
}
