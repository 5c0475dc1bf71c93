/**
 * Cycles of a varying load, counted by the rainflow method.
 * @source ASTM E1049-85 (Reapproved), clause 5.4.4: the steps 1 to 6 are followed as printed there.
 */
export interface Cycle {
  /** Largest minus smallest load of the cycle, N. */
  readonly range: number;
  /** N */
  readonly mean: number;
  /** 1, or ½ for a cycle begun or left open. */
  readonly count: 0.5 | 1;
  /** Indices in the series counted of the two turns that make it. */
  readonly from: number;
  readonly to: number;
}

/**
 * Turning points of a series: its first and last value and every reversal between that is larger than the dead band.
 * With no dead band, every change of direction. Indices into `load`.
 */
export function turns(load: Float64Array, deadBand = 0): Int32Array {
  const n = load.length;
  const out: number[] = [];
  let low = 0;
  let high = 0;
  let rising = 0;
  let first = 0;
  while (first < n && Number.isNaN(load[first]!)) first++;
  if (first === n) return new Int32Array(0);
  low = high = first;
  for (let i = first + 1; i < n; i++) {
    const v = load[i]!;
    if (Number.isNaN(v)) continue;
    if (v > load[high]!) high = i;
    if (v < load[low]!) low = i;
    if (rising >= 0 && load[high]! - v > deadBand) {
      // From the start both turns are open: the series begins with its first value.
      if (rising === 0 && high !== first) out.push(first);
      out.push(high);
      rising = -1;
      low = i;
      high = i;
    } else if (rising <= 0 && v - load[low]! > deadBand) {
      if (rising === 0 && low !== first) out.push(first);
      out.push(low);
      rising = 1;
      low = i;
      high = i;
    }
  }
  const end = rising > 0 ? high : rising < 0 ? low : first;
  if (out[out.length - 1] !== end) out.push(end);
  return Int32Array.from(out);
}

/**
 * Cycles and half cycles of a load by the steps of the source above.
 * @param load N, in order of time
 * @param deadBand N; reversals no larger than this do not count
 * @returns in the order they close, the residue's halves last
 */
export function rainflow(load: Float64Array, deadBand = 0): Cycle[] {
  const points = turns(load, deadBand);
  const cycles: Cycle[] = [];
  const stack: number[] = [];
  for (const point of points) {
    stack.push(point);
    while (stack.length >= 3) {
      const a = stack[stack.length - 3]!;
      const b = stack[stack.length - 2]!;
      const x = Math.abs(load[point]! - load[b]!);
      const y = Math.abs(load[b]! - load[a]!);
      if (x < y) break;
      if (stack.length === 3) {
        cycles.push(cycle(a, b, 0.5));
        stack.shift();
      } else {
        cycles.push(cycle(a, b, 1));
        stack.splice(stack.length - 3, 2);
      }
    }
  }
  for (let i = 0; i + 1 < stack.length; i++) cycles.push(cycle(stack[i]!, stack[i + 1]!, 0.5));
  return cycles;

  function cycle(from: number, to: number, count: 0.5 | 1): Cycle {
    const a = load[from]!;
    const b = load[to]!;
    return { range: Math.abs(b - a), mean: (a + b) / 2, count, from, to };
  }
}

/** Cycles gathered into equal classes of range up to the largest: how many, and the mean load of each class. */
export interface CycleClass {
  readonly above: number;
  readonly upTo: number;
  readonly cycles: number;
  readonly mean: number;
}

/** Gathers cycles into `count` equal classes of range, N, from zero up to the largest; one on an edge counts in the lower class. */
export function classes(cycles: readonly Cycle[], count: number): CycleClass[] {
  let largest = 0;
  for (const c of cycles) largest = Math.max(largest, c.range);
  if (!(largest > 0)) return [];
  const total = new Float64Array(count);
  const load = new Float64Array(count);
  for (const c of cycles) {
    const k = Math.max(0, Math.min(count - 1, Math.ceil((c.range / largest) * count) - 1));
    total[k]! += c.count;
    load[k]! += c.count * c.mean;
  }
  return Array.from(total, (cycles, k) => ({
    above: (largest * k) / count,
    upTo: (largest * (k + 1)) / count,
    cycles,
    mean: cycles > 0 ? load[k]! / cycles : Number.NaN,
  }));
}
