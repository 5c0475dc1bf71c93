import type { Reporter, TestModule } from "vitest/node";

/** Ends a run with one plain line that any reader of the log finds: `N passed, N failed, N skipped`. */
export default class ClosingLine implements Reporter {
  onTestRunEnd(modules: readonly TestModule[]): void {
    const count = { passed: 0, failed: 0, skipped: 0 };
    for (const module of modules) {
      for (const test of module.children.allTests()) {
        const { state } = test.result();
        if (state === "passed" || state === "failed" || state === "skipped") count[state]++;
      }
      // A file that did not even load has no tests to count, and has failed.
      if (module.state() === "failed" && module.errors().length > 0) count.failed++;
    }
    process.stdout.write(`\n${count.passed} passed, ${count.failed} failed, ${count.skipped} skipped\n`);
  }
}
