import { defineConfig } from "vitest/config";

export default defineConfig({
  test: {
    include: ["test/**/*.test.ts", "test/**/*.test.tsx"],
    maxWorkers: 2,
    testTimeout: 60_000,
    reporters: ["default", "./test/support/closing-line.ts"],
  },
});
