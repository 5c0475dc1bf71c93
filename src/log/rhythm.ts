/** How the stamps of a table step. */
import { bytesOf } from "./encoding.ts";
import { StampReader } from "./stamp.ts";
import type { TimeChoice } from "./time-column.ts";

/** Usual step between stamps, and how many rows share one. */
export function rhythmOf(
  rows: readonly (readonly string[])[],
  time: TimeChoice,
  decimal: "." | ",",
): { step: number; rowsPerStamp: number } {
  if (time.plan === null) return { step: 0, rowsPerStamp: 1 };
  const { column, format, rate } = time.plan;
  if (format === "count" || column < 0) return { step: 1 / rate, rowsPerStamp: 1 };
  const reader = new StampReader(format, 0, decimal.charCodeAt(0));
  const times = rows
    .map((row) => reader.read(bytesOf(row[column] ?? ""), 0, (row[column] ?? "").length))
    .filter((t) => !Number.isNaN(t));
  const steps: number[] = [];
  const shared: number[] = [];
  let run = 1;
  for (let i = 1; i < times.length; i++) {
    const step = times[i]! - times[i - 1]!;
    if (step === 0) run++;
    else {
      if (step > 0) steps.push(step);
      shared.push(run);
      run = 1;
    }
  }
  // The first run may have begun before the file did.
  const perStamp = median(shared.slice(1));
  return { step: median(steps), rowsPerStamp: shared.length > 3 && perStamp > 1 ? perStamp : 1 };
}

function median(values: readonly number[]): number {
  if (values.length === 0) return 0;
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[sorted.length >> 1]!;
}
