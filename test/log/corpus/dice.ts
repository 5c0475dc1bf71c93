/** Seeded chance of the corpus: mulberry32 (public domain, recalled), apart from the project's own generator. */
export class Chance {
  private state: number;

  constructor(seed: number) {
    this.state = seed >>> 0;
  }

  /** From 0 to below 1. */
  next(): number {
    this.state = (this.state + 0x6d2b79f5) >>> 0;
    let t = this.state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  }

  below(n: number): number {
    return Math.floor(this.next() * n);
  }

  pick<T>(list: readonly T[]): T {
    return list[this.below(list.length)]!;
  }

  chance(p: number): boolean {
    return this.next() < p;
  }
}

/** The load of an invented pull, N, a value a row: slack, steps up with ripple, and a release; seldom loaded from the start. */
export function pullOf(
  dice: Chance,
  rows: number,
  scale = 1,
): { readonly newtons: number[]; readonly loaded: boolean } {
  const loaded = dice.chance(0.12);
  const top = (1500 + dice.next() * 9000) * scale;
  const newtons = Array.from({ length: rows }, (_, i) => {
    const share = i / rows;
    const level = loaded
      ? 0.6 + 0.3 * share
      : share < 0.15
        ? 0.01
        : share < 0.5
          ? (share - 0.15) / 0.35
          : share < 0.85
            ? 1
            : 0.05;
    return Math.max(3, top * level + top * 0.02 * (dice.next() - 0.5) + 4 * dice.next());
  });
  return { newtons, loaded };
}

export const two = (n: number): string => String(n).padStart(2, "0");
