/** Which of several columns of loads is the load of the pull: what their numbers say of one another. */
import { bytesOf } from "./encoding.ts";
import { NumberReader } from "./number.ts";
import type { ValueColumn } from "./plan.ts";
import type { Question } from "./table-guess.ts";
import { shown } from "./troubles.ts";

/** Loads that differ by less than this share say the same. */
const SAME = 0.01;

interface LoadColumn {
  readonly value: ValueColumn;
  /** N; NaN where a row has none. */
  readonly newtons: readonly number[];
}

/** The loads of the first rows in newtons, by column. */
export function loadsOf(
  values: readonly ValueColumn[],
  rows: readonly (readonly string[])[],
  decimal: number,
  grouping: number,
): LoadColumn[] {
  const numbers = new NumberReader({ decimal, grouping });
  return values
    .filter(({ channel }) => channel.kind === "load")
    .map((value) => ({
      value,
      newtons: rows.map((row) => {
        const bytes = bytesOf((row[value.column] ?? "").trim());
        return numbers.read(bytes, 0, bytes.length) * (value.scale ?? 1);
      }),
    }));
}

/** The columns that repeat an earlier one in another unit. Two cells in one unit may share a load evenly: they are asked. */
export function repeatsOf(loads: readonly LoadColumn[]): Map<ValueColumn, ValueColumn> {
  const repeats = new Map<ValueColumn, ValueColumn>();
  loads.forEach((one, k) => {
    const before = loads
      .slice(0, k)
      .find(
        (other) =>
          !repeats.has(other.value) &&
          other.value.channel.fromUnit !== one.value.channel.fromUnit &&
          agree(one.newtons, other.newtons),
      );
    if (before) repeats.set(one.value, before.value);
  });
  return repeats;
}

/** The question which of several loads is meant, with a guess. */
export function askWhichLoad(loads: readonly LoadColumn[]): Question {
  const named = ({ value }: LoadColumn) => shown(value.channel.from);
  const total = loads.find((one) => {
    const others = loads.filter((other) => other !== one);
    const sum = one.newtons.map((_, i) => others.reduce((all, other) => all + other.newtons[i]!, 0));
    return others.length > 1 && agree(one.newtons, sum);
  });
  const guess = total ?? loads[0]!;
  const answers = [guess, ...loads.filter((one) => one !== guess)].map(({ value }) =>
    `--map load=${value.column + 1}:${value.scale === null ? "" : value.channel.fromUnit}`.replace(/:$/, ""),
  );
  return {
    about: "several loads",
    question: {
      kind: "severalLoads",
      columns: loads.map(named),
      guess: named(guess),
      isSum: total !== undefined,
    },
    answers: [...answers, "--loads sum", "--loads each"],
  };
}

/** Equal within one in a hundred in nearly all rows that hold both and are not near zero. */
function agree(a: readonly number[], b: readonly number[]): boolean {
  const most = Math.max(...a.map((v) => (Number.isNaN(v) ? 0 : Math.abs(v))));
  let both = 0;
  let same = 0;
  for (let i = 0; i < a.length; i++) {
    if (Number.isNaN(a[i]!) || Number.isNaN(b[i]!)) continue;
    if (Math.abs(a[i]!) < 0.1 * most && Math.abs(b[i]!) < 0.1 * most) continue;
    both++;
    if (Math.abs(a[i]! - b[i]!) <= SAME * Math.max(Math.abs(a[i]!), Math.abs(b[i]!))) same++;
  }
  return both >= 3 && same >= both * 0.95;
}
