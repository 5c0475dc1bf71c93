/** How often one address may try a code: ten times in ten minutes. */
export const attemptRules = { window: 10 * 60_000, most: 10, addresses: 1_000 } as const;

/** Counts tries by address within a sliding window. Bounded in memory: past a thousand addresses all are refused. */
export class Attempts {
  readonly #now: () => number;
  readonly #byAddress = new Map<string, number[]>();

  constructor(now: () => number) {
    this.#now = now;
  }

  /** Notes a try; 0 when it may go on, otherwise the seconds to wait. */
  note(address: string): number {
    const now = this.#now();
    for (const [key, times] of this.#byAddress)
      if (times.at(-1)! <= now - attemptRules.window) this.#byAddress.delete(key);
    const times = (this.#byAddress.get(address) ?? []).filter((time) => time > now - attemptRules.window);
    const full = !this.#byAddress.has(address) && this.#byAddress.size >= attemptRules.addresses;
    if (full || times.length >= attemptRules.most) {
      return Math.max(1, Math.ceil(((times[0] ?? now) + attemptRules.window - now) / 1000));
    }
    times.push(now);
    this.#byAddress.set(address, times);
    return 0;
  }
}
