/** A copy of the repository in which faults are tried, with a warm test runner beside it. */
import { type ChildProcess, fork } from "node:child_process";
import {
  cpSync,
  existsSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  realpathSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Answered, Asked } from "./run-tests.ts";

/** Never copied: what is installed or built, and history. */
const LEFT = new Set(["node_modules", ".git", "dist", ".vite"]);
/** A test that takes so long, by the clock, will not end. Load alone never takes it there. */
const LONGEST_ms = 900_000;

export class Bench {
  readonly root: string;
  readonly #isApart: boolean;
  #runner: ChildProcess | undefined;
  #setup: string | undefined;
  #changed: string[] = [];

  /** @param isApart each test file in a process of its own, for rooms whose tests touch what is outside them */
  constructor(from: string, isApart: boolean) {
    this.#isApart = isApart;
    this.root = realpathSync(mkdtempSync(join(tmpdir(), "faults-")));
    for (const name of readdirSync(from)) {
      if (!LEFT.has(name)) cpSync(join(from, name), join(this.root, name), { recursive: true });
    }
    if (existsSync(join(from, "dist"))) symlinkSync(join(from, "dist"), join(this.root, "dist"));
    symlinkSync(realpathSync(join(from, "node_modules")), join(this.root, "node_modules"));
  }

  text(file: string): string {
    return readFileSync(join(this.root, file), "utf8");
  }

  write(file: string, text: string): void {
    writeFileSync(join(this.root, file), text);
    this.#changed.push(join(this.root, file));
  }

  /** Runs are from now on with this set-up file, or with none; a new runner is made for them. */
  setUp(file: string | undefined): void {
    this.stop();
    this.#setup = file;
  }

  /**
   * Runs test files in this order, until one fails unless a set-up file is there.
   *
   * @param processorSeconds after so much work of the processor the tests are taken not to end
   */
  async run(tests: readonly string[], processorSeconds: number): Promise<Answered | "endless"> {
    const runner = await this.#ready();
    const asked: Asked = { changed: this.#changed, tests: tests.map((test) => join(this.root, test)) };
    this.#changed = [];
    const from = processorTime(runner.pid!);
    const began = Date.now();
    return new Promise((done) => {
      const end = (answer: Answered | "endless"): void => {
        clearInterval(watch);
        runner.off("message", end);
        runner.off("exit", died);
        done(answer);
      };
      // A fault may also end the process itself.
      const died = (): void => {
        this.#runner = undefined;
        end({ failed: "the process ended", failing: [], took: {} });
      };
      const watch = setInterval(() => {
        if (processorTime(runner.pid!) - from < processorSeconds && Date.now() - began < LONGEST_ms) return;
        this.stop();
        end("endless");
      }, 500);
      runner.on("message", end);
      runner.on("exit", died);
      runner.send(asked);
    });
  }

  stop(): void {
    const runner = this.#runner;
    this.#runner = undefined;
    if (runner?.pid === undefined) return;
    runner.removeAllListeners();
    for (const pid of [...below(runner.pid), runner.pid]) {
      try {
        process.kill(pid, "SIGKILL");
      } catch {
        // It has ended by itself.
      }
    }
  }

  remove(): void {
    this.stop();
    rmSync(this.root, { recursive: true, force: true });
  }

  async #ready(): Promise<ChildProcess> {
    if (this.#runner !== undefined) return this.#runner;
    const runner = fork(
      join(import.meta.dirname, "run-tests.ts"),
      [
        this.root,
        this.#isApart || this.#setup !== undefined ? "apart" : "together",
        ...(this.#setup ? [this.#setup] : []),
      ],
      {
        cwd: this.root,
        execArgv: ["--import", "tsx"],
        stdio: ["ignore", "ignore", "inherit", "ipc"],
        env: { ...process.env, ENTERED: join(this.root, "entered.jsonl"), VITEST_MAX_WORKERS: "1" },
      },
    );
    this.#runner = runner;
    await new Promise<void>((done, fail) => {
      runner.once("message", () => done());
      runner.once("exit", (status) => fail(new Error(`the test runner ended with ${status}`)));
    });
    runner.removeAllListeners("exit");
    return runner;
  }
}

/** Seconds of processor a process and all below it have had; the clock's where the system does not tell. */
function processorTime(pid: number): number {
  if (!existsSync("/proc/self/stat")) return performance.now() / 1000;
  let ticks = 0;
  for (const one of [pid, ...below(pid)]) {
    const fields = stat(one);
    // utime, stime and those of children waited for; 100 ticks a second on every Linux.
    if (fields !== null) ticks += [11, 12, 13, 14].reduce((sum, i) => sum + Number(fields[i]), 0);
  }
  return ticks / 100;
}

/** The fields of /proc/PID/stat after the name, which may hold anything. */
function stat(pid: number): string[] | null {
  try {
    const text = readFileSync(`/proc/${pid}/stat`, "utf8");
    return text.slice(text.lastIndexOf(")") + 2).split(" ");
  } catch {
    return null;
  }
}

function below(pid: number): number[] {
  let children: number[] = [];
  try {
    for (const task of readdirSync(`/proc/${pid}/task`))
      children = children.concat(
        readFileSync(`/proc/${pid}/task/${task}/children`, "utf8").split(" ").filter(Boolean).map(Number),
      );
  } catch {
    return [];
  }
  return children.flatMap((child) => [child, ...below(child)]);
}
