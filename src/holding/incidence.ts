/**
 * Cumulative incidence by kind of ending, after Aalen & Johansen (Scand. J. Stat. 5, 1978, 141): the chance that a pull
 * has ended in this way by a load, the other ways being what they are. 1 − Kaplan–Meier for one ending would tell what
 * would be if the others did not exist, which no pull shows. Variance by the delta method (Marubini & Valsecchi, 1995,
 * 10.2.2).
 *
 * A pull known only between two loads counts at the one by which it had given way.
 */
import type { Hold } from "./pull.ts";

/** One step of an incidence curve. */
export interface IncidenceStep {
  /** N */
  readonly load: number;
  readonly chance: number;
  readonly se: number;
}

/** Incidence of one kind of ending over load. */
export interface Incidence {
  readonly ending: string;
  readonly pulls: number;
  readonly steps: readonly IncidenceStep[];
}

/** @param ended of each pull, how it ended; not read where it held on. Endings come in alphabetical order. */
export function incidence(holds: readonly Hold[], ended: readonly (string | undefined)[]): Incidence[] {
  const load = holds.map(endLoad);
  const gave = holds.map(({ kind }) => kind !== "heldTo");
  const nameOf = (i: number): string => ended[i] ?? "not told";
  const endings = [...new Set(holds.flatMap((_, i) => (gave[i] ? [nameOf(i)] : [])))].sort();
  const order = holds.map((_, i) => i).sort((a, b) => load[a]! - load[b]!);
  const tables = endings.map((ending) => ({ ending, pulls: 0, sums: sumsAtStart(), steps: [] as IncidenceStep[] }));
  const place = new Map(endings.map((ending, k) => [ending, k]));
  const by = new Float64Array(endings.length);
  let chance = 1;
  for (let at = 0; at < order.length; ) {
    const here = load[order[at]!]!;
    const n = order.length - at;
    let d = 0;
    by.fill(0);
    for (; at < order.length && load[order[at]!] === here; at++) {
      if (!gave[order[at]!]) continue;
      const k = place.get(nameOf(order[at]!))!;
      by[k] = by[k]! + 1;
      d++;
    }
    if (d === 0) continue;
    for (const [k, table] of tables.entries()) {
      const own = by[k]!;
      const sums = table.sums;
      sums.incidence += (chance * own) / n;
      const f = sums.incidence;
      // [F(t) − F(tⱼ)]² a + S² (n − d) d / n³ − 2 [F(t) − F(tⱼ)] S d / n², summed over j by the powers of F(t).
      const a = n > d ? d / (n * (n - d)) : 0;
      const b = (chance * own) / n ** 2;
      sums.a0 += a;
      sums.a1 += a * f;
      sums.a2 += a * f * f;
      sums.c += (chance ** 2 * (n - own) * own) / n ** 3;
      sums.b0 += b;
      sums.b1 += b * f;
      table.pulls += own;
      if (own === 0) continue;
      const variance = f * f * sums.a0 - 2 * f * sums.a1 + sums.a2 + sums.c - 2 * (f * sums.b0 - sums.b1);
      table.steps.push({ load: here, chance: f, se: Math.sqrt(Math.max(0, variance)) });
    }
    chance *= (n - d) / n;
  }
  return tables.map(({ ending, pulls, steps }) => ({ ending, pulls, steps }));
}

const sumsAtStart = () => ({ incidence: 0, a0: 0, a1: 0, a2: 0, b0: 0, b1: 0, c: 0 });

function endLoad(hold: Hold): number {
  return hold.kind === "between" ? hold.gaveWayBy : hold.newtons;
}
