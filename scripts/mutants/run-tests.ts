/**
 * A warm vitest in a process of its own: is sent test files, runs them in that order until one fails, and answers. It
 * can be killed when a fault makes a loop endless.
 */
import { relative } from "node:path";
import { BaseSequencer, createVitest, type TestSpecification } from "vitest/node";

export interface Asked {
  readonly changed: readonly string[];
  readonly tests: readonly string[];
}

export interface Answered {
  /** The first claim that did not hold, or null when all did. */
  readonly failed: string | null;
  /** Test files in which a claim did not hold; only one where the run ended at the first. */
  readonly failing: readonly string[];
  /** Milliseconds each test file took. */
  readonly took: Readonly<Record<string, number>>;
}

let order: readonly string[] = [];
class AsAsked extends BaseSequencer {
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    return [...files].sort((a, b) => order.indexOf(a.moduleId) - order.indexOf(b.moduleId));
  }
}

const root = process.argv[2]!;
const isApart = process.argv[3] === "apart";
const setup = process.argv[4];
const vitest = await createVitest(
  "test",
  {
    root,
    // Not the suite's: its projects have a context and set-up files of their own, whatever is asked for here.
    config: false,
    include: ["test/**/*.test.ts", "test/**/*.test.tsx"],
    testTimeout: 600_000,
    hookTimeout: 600_000,
    expect: { poll: { timeout: 300_000 } },
    watch: false,
    bail: setup === undefined ? 1 : 0,
    maxWorkers: 1,
    fileParallelism: false,
    isolate: isApart,
    pool: "forks",
    reporters: [{}],
    update: "none",
    sequence: { sequencer: AsAsked },
    cache: false,
    ...(setup === undefined ? {} : { setupFiles: [setup] }),
  },
  { cacheDir: `${root}/.vite`, server: { watch: null } },
);
await vitest.globTestSpecifications();

process.on("message", async ({ changed, tests }: Asked) => {
  order = tests;
  for (const path of changed) vitest.invalidateFile(path);
  // What an earlier run found is forgotten: a file that this one does not reach would answer with it.
  vitest.state.filesMap.clear();
  vitest.state.idMap.clear();
  const specifications = tests.flatMap((path) => vitest.getModuleSpecifications(path));
  const { testModules, unhandledErrors } = await vitest.runTestSpecifications(specifications, false);
  let failed: string | null = unhandledErrors.length > 0 ? `unhandled: ${firstLine(unhandledErrors[0])}` : null;
  const took: Record<string, number> = {};
  const failing: string[] = [];
  for (const module of testModules) {
    took[module.moduleId] = module.diagnostic().duration + module.diagnostic().collectDuration;
    const name = relative(root, module.moduleId);
    if (module.state() === "failed") failing.push(name);
    if (failed !== null) continue;
    for (const test of module.children.allTests("failed")) failed ??= `${name} > ${test.fullName}`;
    if (failed === null && module.state() === "failed") failed = `${name}: ${firstLine(module.errors()[0])}`;
  }
  process.send?.({ failed, failing, took } satisfies Answered);
});
process.on("disconnect", () => process.exit());
process.send?.("ready");

function firstLine(error: unknown): string {
  return String((error as Error | undefined)?.message ?? error).split("\n")[0]!;
}
