/** A stretch of a log as the server sends it: columns of Float64 one after another, told by a header. */

export interface ViewHead {
  readonly kind: "readings" | "bands";
  readonly rows: number;
  readonly columns: readonly { readonly name: string; readonly part: "t" | "from" | "to" | "value" | "min" | "max" }[];
}

/** A stretch as it is drawn: rising times, and of each channel the least and greatest reading there (NaN: none). */
export interface Bands {
  /** True when each row is one reading, its least and greatest the same. */
  readonly readings: boolean;
  readonly from: Float64Array;
  readonly to: Float64Array;
  readonly columns: ReadonlyMap<string, { readonly min: Float64Array; readonly max: Float64Array }>;
}

/** @throws RangeError when the bytes are fewer than the head says */
export function bandsOf(head: ViewHead, bytes: ArrayBuffer): Bands {
  const { rows } = head;
  const column = (i: number): Float64Array => new Float64Array(bytes, 8 * rows * i, rows);
  let from = new Float64Array(0);
  let to = from;
  const columns = new Map<string, { min: Float64Array; max: Float64Array }>();
  head.columns.forEach(({ name, part }, i) => {
    if (part === "t") {
      from = column(i) as typeof from;
      to = from;
    } else if (part === "from") from = column(i) as typeof from;
    else if (part === "to") to = column(i) as typeof to;
    else if (part === "value") columns.set(name, { min: column(i), max: column(i) });
    else if (part === "min") columns.set(name, { min: column(i), max: columns.get(name)?.max ?? column(i) });
    else columns.set(name, { min: columns.get(name)!.min, max: column(i) });
  });
  return inOrder({ readings: head.kind === "readings", from, to, columns });
}

/** Where a logger's clock was set back, times go back: drawn, they rise. */
function inOrder(bands: Bands): Bands {
  const { from } = bands;
  let rising = true;
  for (let i = 1; i < from.length && rising; i++) rising = from[i]! >= from[i - 1]!;
  if (rising) return bands;
  const order = Uint32Array.from(from.keys()).sort((a, b) => from[a]! - from[b]!);
  const sorted = (values: Float64Array) => Float64Array.from(order, (i) => values[i]!);
  return {
    ...bands,
    from: sorted(from),
    to: sorted(bands.to),
    columns: new Map([...bands.columns].map(([name, { min, max }]) => [name, { min: sorted(min), max: sorted(max) }])),
  };
}

/** Stretches that follow one another as one. */
export function chained(parts: readonly Bands[]): Bands {
  if (parts.length === 1) return parts[0]!;
  const joined = (of: (part: Bands) => Float64Array): Float64Array => {
    const out = new Float64Array(parts.reduce((sum, part) => sum + part.from.length, 0));
    let at = 0;
    for (const part of parts) {
      out.set(of(part), at);
      at += part.from.length;
    }
    return out;
  };
  return {
    readings: parts.every((part) => part.readings),
    from: joined((part) => part.from),
    to: joined((part) => part.to),
    columns: new Map(
      [...parts[0]!.columns.keys()].map((name) => [
        name,
        { min: joined((part) => part.columns.get(name)!.min), max: joined((part) => part.columns.get(name)!.max) },
      ]),
    ),
  };
}

/** At most so many rows, each the least and greatest of some that follow one another: no peak is lost. */
export function condensed(bands: Bands, most: number): Bands {
  const n = bands.from.length;
  const take = Math.ceil(n / most);
  if (take <= 1) return bands;
  const rows = Math.ceil(n / take);
  const from = new Float64Array(rows);
  const to = new Float64Array(rows);
  const columns = new Map<string, { min: Float64Array; max: Float64Array }>();
  for (const name of bands.columns.keys())
    columns.set(name, { min: new Float64Array(rows).fill(Number.NaN), max: new Float64Array(rows).fill(Number.NaN) });
  for (let row = 0; row < rows; row++) {
    from[row] = bands.from[row * take]!;
    to[row] = bands.to[Math.min(n, (row + 1) * take) - 1]!;
  }
  for (const [name, { min, max }] of bands.columns) {
    const out = columns.get(name)!;
    for (let i = 0; i < n; i++) {
      const row = Math.floor(i / take);
      // A comparison with NaN is false: the first reading of a row is taken whatever stands there.
      if (!(out.min[row]! <= min[i]!) && !Number.isNaN(min[i]!)) out.min[row] = min[i]!;
      if (!(out.max[row]! >= max[i]!) && !Number.isNaN(max[i]!)) out.max[row] = max[i]!;
    }
  }
  return { readings: false, from, to, columns };
}

/** Columns for drawing: times, least and greatest; null breaks the line. */
export interface Drawn {
  readonly x: number[];
  readonly min: (number | null)[];
  readonly max: (number | null)[];
}

/** A silence this many times as long as usual breaks the line. */
const BREAK = 12;

/** Median time between readings of a channel, s. */
function usualStep(bands: Bands, values: Float64Array, begin: number, end: number): number {
  const steps: number[] = [];
  let last = Number.NaN;
  for (let i = begin; i < end; i++) {
    if (Number.isNaN(values[i]!)) continue;
    const at = bands.from[i]!;
    if (!Number.isNaN(last)) steps.push(at - last);
    last = at;
  }
  if (steps.length === 0) return Number.POSITIVE_INFINITY;
  steps.sort((a, b) => a - b);
  return Math.max(1e-9, steps[steps.length >> 1]!);
}

/**
 * One channel of a coarse stretch with a finer one put in its place where there is one: what is not yet fetched is
 * drawn coarsely, never blank. No greatest or least is lost: a coarse band that reaches into the fine stretch stays.
 */
export function drawnOf(coarse: Bands | null, fine: Bands | null, channel: string, factor: number): Drawn {
  const drawn: Drawn = { x: [], min: [], max: [] };
  const add = (bands: Bands, begin: number, end: number): void => {
    const column = bands.columns.get(channel);
    if (column === undefined) return;
    const silence = BREAK * usualStep(bands, column.min, begin, end);
    for (let i = begin; i < end; i++) {
      const [low, high] = [column.min[i]!, column.max[i]!];
      // A channel read more seldom than others has rows without a reading: the line goes over them.
      if (Number.isNaN(low)) continue;
      const at = bands.readings ? bands.from[i]! : (bands.from[i]! + bands.to[i]!) / 2;
      const last = drawn.x.at(-1);
      if (last !== undefined && at - last > silence) {
        drawn.x.push((last + at) / 2);
        drawn.min.push(null);
        drawn.max.push(null);
      }
      drawn.x.push(at);
      drawn.min.push(low * factor);
      drawn.max.push(high * factor);
    }
  };
  if (fine === null || fine.from.length === 0) {
    if (coarse !== null) add(coarse, 0, coarse.from.length);
    return drawn;
  }
  if (coarse === null) {
    add(fine, 0, fine.from.length);
    return drawn;
  }
  const first = fine.from[0]!;
  const last = fine.to[fine.to.length - 1]!;
  let begin = 0;
  while (begin < coarse.from.length && (coarse.from[begin]! + coarse.to[begin]!) / 2 < first) begin++;
  let end = coarse.from.length;
  while (end > begin && (coarse.from[end - 1]! + coarse.to[end - 1]!) / 2 > last) end--;
  add(coarse, 0, begin);
  add(fine, 0, fine.from.length);
  add(coarse, end, coarse.from.length);
  return drawn;
}
