/**
 * A rode of one chain and a springy end: horizontal distance from anchor to bow at a horizontal load, by the parabola-free
 * closed forms of a catenary (lying on the bottom, or lifted whole), written down here by hand and not taken from the program.
 */
export interface OwnRode {
  /** Weight in water, N/m. */
  readonly weight: number;
  /** Bow above the bottom, m. */
  readonly height: number;
  /** m */
  readonly length: number;
  /** N/m */
  readonly spring: number;
}

/** m */
export function distanceAt(rode: OwnRode, load: number): number {
  const a = Math.max(load, 1) / rode.weight;
  const lifted = Math.sqrt(rode.height ** 2 + 2 * rode.height * a);
  const shape =
    lifted <= rode.length
      ? rode.length - lifted + a * Math.acosh(1 + rode.height / a)
      : 2 * a * Math.asinh(Math.sqrt(rode.length ** 2 - rode.height ** 2) / (2 * a));
  return shape + load / rode.spring;
}

/** The load at a distance: the curve tabled once and read between its rows; nothing where the rode is slack. */
export function loadOf(rode: OwnRode, most: number): (distance: number) => number {
  const rows = 4000;
  const loads = Float64Array.from({ length: rows }, (_, k) => most * (k / (rows - 1)) ** 3);
  const distances = loads.map((load) => distanceAt(rode, load));
  return (distance) => {
    if (distance <= distances[0]!) return 0;
    let [a, b] = [0, rows - 1];
    if (distance >= distances[b]!) return most + rode.spring * (distance - distances[b]!);
    while (b - a > 1) {
      const m = (a + b) >> 1;
      if (distances[m]! <= distance) a = m;
      else b = m;
    }
    return loads[a]! + ((loads[b]! - loads[a]!) * (distance - distances[a]!)) / (distances[b]! - distances[a]!);
  };
}
