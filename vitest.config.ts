import { defineConfig } from "vitest/config";

export default defineConfig({
  test: {
    include: ["test/**/*.test.ts", "test/**/*.test.tsx"],
    maxWorkers: 2,
    // These end what would never end, and measure nothing: long enough for any machine, however busy.
    testTimeout: 600_000,
    hookTimeout: 600_000,
    expect: { poll: { timeout: 300_000 } },
    allowOnly: false,
    reporters: ["default", "./test/support/closing-line.ts"],
  },
});
