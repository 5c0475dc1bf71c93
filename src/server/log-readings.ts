import type { Imported } from "../book/index.ts";
import { InputError } from "../quantity/index.ts";
import type { Intake, IntakeOptions } from "./intake.ts";
import type { Writer } from "./records.ts";
import { Refusal, type RefusalBody, refusalOf } from "./refusals.ts";
import type { SentFile } from "./sent-files.ts";

/** How far the reading of a sent file has come. */
export type Reading =
  | { readonly kind: "waiting" }
  | { readonly kind: "reading"; readonly position: number; readonly rows: number }
  | { readonly kind: "done"; readonly answer: Imported }
  | ({ readonly kind: "failed" } & RefusalBody);

interface Job {
  reading: Reading;
  readonly stop: AbortController;
  readonly ended: Promise<void>;
}

/** Reads sent files into the book, one after another, each stoppable; a reading stopped or killed goes on where it was. */
export class LogReadings {
  readonly #intake: Intake;
  readonly #fault: (error: unknown) => void;
  readonly #jobs = new Map<string, Job>();
  #last: Promise<void> = Promise.resolve();

  constructor(intake: Intake, fault: (error: unknown) => void) {
    this.#intake = intake;
    this.#fault = fault;
  }

  /** Whether a file is being read, or waits for one that is. */
  get isReading(): boolean {
    return [...this.#jobs.values()].some(({ reading }) => reading.kind === "reading");
  }

  of(id: string): Reading {
    return this.#jobs.get(id)?.reading ?? { kind: "waiting" };
  }

  /** @throws Refusal 409 when it is under way already */
  begin(file: SentFile, options: IntakeOptions, by: Writer): void {
    const known = this.#jobs.get(file.id)?.reading.kind;
    if (known === "reading") throw new Refusal(409, "sent file", "being read already", "one reading at a time");
    const stop = new AbortController();
    const job: Job = {
      reading: { kind: "reading", position: 0, rows: 0 },
      stop,
      ended: this.#last.then(() => this.#read(file, options, by, job)),
    };
    this.#last = job.ended;
    this.#jobs.set(file.id, job);
  }

  /** Stops a reading and waits until it stands still; what was read stays in the book. */
  async stop(id: string): Promise<void> {
    const job = this.#jobs.get(id);
    job?.stop.abort();
    await job?.ended;
  }

  async stopAll(): Promise<void> {
    await Promise.all([...this.#jobs.keys()].map((id) => this.stop(id)));
  }

  forget(id: string): void {
    this.#jobs.delete(id);
  }

  async #read(file: SentFile, options: IntakeOptions, by: Writer, job: Job): Promise<void> {
    try {
      const answer = await this.#intake.read(file, options, by, {
        signal: job.stop.signal,
        progress: ({ position, rows }) => {
          job.reading = { kind: "reading", position, rows };
        },
      });
      job.reading = { kind: "done", answer };
    } catch (error) {
      const { status, body } = refusalOf(error instanceof InputError ? named(error, file) : error);
      if (status === 500) this.#fault(error);
      job.reading = { kind: "failed", ...body };
    }
  }
}

/** The sender knows the file by its name, not by where it lies meanwhile. */
export function named(error: InputError, file: SentFile): InputError {
  if (!error.place.includes(file.path)) return error;
  return new InputError(error.place.replaceAll(file.path, file.name), error.given, error.expected);
}
