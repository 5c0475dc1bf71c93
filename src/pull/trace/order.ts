/** Order statistics of plain numbers: medians and robust scale, by partial sorting in expected linear time. */

/** The value below which the given share of the numbers lies (linear between order statistics); reorders `values`. */
export function quantileInPlace(values: Float64Array, share: number): number {
  const n = values.length;
  if (n === 0) return Number.NaN;
  const place = share * (n - 1);
  const below = Math.floor(place);
  const low = select(values, below);
  if (place === below) return low;
  let high = Number.POSITIVE_INFINITY;
  for (let i = below + 1; i < n; i++) if (values[i]! < high) high = values[i]!;
  return low + (place - below) * (high - low);
}

export function median(values: Float64Array): number {
  return quantileInPlace(values.slice(), 0.5);
}

/** Median absolute value about zero, scaled to the standard deviation of a normal law. */
export function scaleAboutZero(values: Float64Array): number {
  return NORMAL * quantileInPlace(values.map(Math.abs), 0.5);
}

/** Median absolute deviation from the median, scaled to the standard deviation of a normal law. */
export function scaleAboutMedian(values: Float64Array): number {
  const middle = median(values);
  return (
    NORMAL *
    quantileInPlace(
      values.map((v) => Math.abs(v - middle)),
      0.5,
    )
  );
}

/**
 * Scale about a centre from the third of the values nearest to it: two thirds may be anything.
 */
export function scaleOfNearest(values: Float64Array, centre: number): number {
  return (
    quantileInPlace(
      values.map((v) => Math.abs(v - centre)),
      1 / 3,
    ) / THIRD_OF_NORMAL
  );
}

/** A third of normal values lie nearer to zero than this many standard deviations: Φ⁻¹(2/3). */
const THIRD_OF_NORMAL = 0.4307272992954576;

/** 1 / Φ⁻¹(3/4) */
const NORMAL = 1.482602218505602;

function select(a: Float64Array, k: number): number {
  let left = 0;
  let right = a.length - 1;
  while (left < right) {
    // Median of three keeps sorted and constant input linear.
    const mid = (left + right) >> 1;
    if (a[mid]! < a[left]!) swap(a, mid, left);
    if (a[right]! < a[left]!) swap(a, right, left);
    if (a[right]! < a[mid]!) swap(a, right, mid);
    const pivot = a[mid]!;
    let i = left;
    let j = right;
    while (i <= j) {
      while (a[i]! < pivot) i++;
      while (a[j]! > pivot) j--;
      if (i <= j) swap(a, i++, j--);
    }
    if (k <= j) right = j;
    else if (k >= i) left = i;
    else return a[k]!;
  }
  return a[k]!;
}

function swap(a: Float64Array, i: number, j: number): void {
  const t = a[i]!;
  a[i] = a[j]!;
  a[j] = t;
}
