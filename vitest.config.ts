import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { defineConfig } from "vitest/config";

/**
 * Journeys, and files that put something in the place of a module, a global or the clock, run each in a context of its own.
 * All others share one a worker: the sources, which keep no state, are loaded once and not four hundred times.
 */
const apart = readdirSync(join(import.meta.dirname, "test"), { recursive: true, encoding: "utf8" })
  .map((name) => `test/${name.replaceAll("\\", "/")}`)
  .filter((name) => /\.test\.tsx?$/.test(name))
  .filter(
    (name) =>
      name.startsWith("test/journeys/") ||
      /\bvi\.(do)?(mock|stub|spyOn|useFake)/i.test(readFileSync(join(import.meta.dirname, name), "utf8")),
  );
const all = ["test/**/*.test.ts", "test/**/*.test.tsx"];

export default defineConfig({
  test: {
    maxWorkers: 2,
    // These end what would never end, and measure nothing: long enough for any machine, however busy.
    testTimeout: 600_000,
    hookTimeout: 600_000,
    expect: { poll: { timeout: 300_000 } },
    allowOnly: false,
    reporters: ["default", "./test/support/closing-line.ts"],
    projects: [
      { extends: true, test: { name: "apart", include: apart, isolate: true } },
      { extends: true, test: { name: "together", include: all, exclude: apart, isolate: false } },
    ],
  },
});
