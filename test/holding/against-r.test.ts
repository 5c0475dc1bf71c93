/**
 * Outside check, where R is present: random pulls of every kind of ending, set beside R's survival package. Stored values
 * of published data are in test/published/survival.test.ts and need no R.
 */
import { describe, expect, it } from "vitest";
import {
  type AftFit,
  boundsOf,
  exactShare,
  fitAft,
  type Hold,
  incidence,
  kaplanMeier,
  LAWS,
  logRank,
  observations,
  turnbull,
} from "../../src/holding/index.ts";
import { askR, survivalOfR, vector } from "./r-survival.ts";
import { type Mixture, randomPulls } from "./random-pulls.ts";

// Sums of some hundred terms in another order: rounding alone.
const ROUNDING = 1e-10;

function near(found: readonly number[], expected: readonly number[], relative: number, what: string): void {
  expect(found.length, what).toBe(expected.length);
  for (const [k, value] of found.entries()) {
    const other = expected[k]!;
    expect(Math.abs(value - other), `${what} [${k}]: ${value} against ${other}`).toBeLessThanOrEqual(
      relative * Math.max(1, Math.abs(other)),
    );
  }
}

const loads = (holds: readonly Hold[]) => holds.map((hold) => boundsOf(hold).low);
const events = (holds: readonly Hold[]) => holds.map((hold) => (hold.kind === "gaveWay" ? 1 : 0));

/** Surv(…, type = "interval2") of R: NA below for one that never held, NA above for one that held on. */
function intervals(holds: readonly Hold[]): string {
  const low = holds.map((hold) => (hold.kind === "neverHeld" ? undefined : boundsOf(hold).low));
  const high = holds.map((hold) => (hold.kind === "heldTo" ? undefined : boundsOf(hold).high));
  return `Surv(${vector(low)}, ${vector(high)}, type="interval2")`;
}

describe.skipIf(survivalOfR === undefined)(
  `beside R survival ${survivalOfR ?? "(absent: skipped)"}`,
  { timeout: 600_000 },
  () => {
    it.each([
      [1, 40, "right"],
      [2, 200, "ties"],
      [3, 15, "exact"],
      [4, 1000, "right"],
    ] as const)(
      "Kaplan–Meier, Greenwood and log-log limits agree (seed %i, %i pulls, %s)",
      async (seed, n, mixture) => {
        const { holds } = randomPulls(seed, n, mixture);
        const r = await askR(`
      f <- survfit(Surv(${vector(loads(holds))}, ${vector(events(holds))}) ~ 1, conf.type="log-log")
      k <- f$n.event > 0; say("load", f$time[k]); say("risk", f$n.risk[k]); say("chance", f$surv[k])
      say("se", (f$surv * f$std.err)[k]); say("low", f$lower[k]); say("high", f$upper[k])`);
        const steps = kaplanMeier(holds);
        near(
          steps.map((s) => s.load),
          r.load!,
          ROUNDING,
          "load",
        );
        near(
          steps.map((s) => s.atRisk),
          r.risk!,
          0,
          "at risk",
        );
        near(
          steps.map((s) => s.chance),
          r.chance!,
          ROUNDING,
          "chance",
        );
        const inside = steps.filter((s) => s.chance > 0);
        near(
          inside.map((s) => s.se!),
          r.se!.slice(0, inside.length),
          ROUNDING,
          "se",
        );
        near(
          inside.map((s) => s.low!),
          r.low!.slice(0, inside.length),
          ROUNDING,
          "low",
        );
        near(
          inside.map((s) => s.high!),
          r.high!.slice(0, inside.length),
          ROUNDING,
          "high",
        );
      },
    );

    it.each([
      [5, 60, "right", 3],
      [6, 200, "ties", 4],
    ] as const)("log-rank, plain and in strata, agrees (seed %i)", async (seed, n, mixture, groups) => {
      const { holds, group } = randomPulls(seed, n, mixture, groups);
      const stratum = holds.map((_, i) => Math.floor((3 * i) / n));
      const r = await askR(`
      s <- Surv(${vector(loads(holds))}, ${vector(events(holds))}); g <- ${vector(group)}; st <- ${vector(stratum)}
      a <- survdiff(s ~ g); b <- survdiff(s ~ g + strata(st))
      say("plain", a$chisq); say("strata", b$chisq); say("expected", a$exp)`);
      const plain = logRank({ holds, group })!;
      near([plain.chi2], r.plain!, 1e-9, "plain");
      near(plain.expected, r.expected!, 1e-10, "expected");
      near([logRank({ holds, group, stratum })!.chi2], r.strata!, 1e-9, "strata");
    });

    it("cumulative incidence by ending agrees", async () => {
      const { holds } = randomPulls(7, 120, "ties");
      const names = ["drag", "roll-out", "break-out"];
      const ended = holds.map((_, i) => names[(i * 5) % 3]!);
      const state = holds.map((hold, i) => (hold.kind === "gaveWay" ? names.indexOf(ended[i]!) + 1 : 0));
      const r = await askR(`
      f <- survfit(Surv(${vector(loads(holds))}, factor(${vector(state)}, 0:3)) ~ 1)
      say("load", f$time); for (k in 1:3) say(paste0("c", k), f$pstate[, k + 1])`);
      for (const curve of incidence(holds, ended)) {
        const column = r[`c${names.indexOf(curve.ending) + 1}`]!;
        for (const step of curve.steps) {
          const at = r.load!.findIndex((load) => Math.abs(load - step.load) < 1e-9 * load);
          expect(step.chance).toBeCloseTo(column[at]!, 12);
        }
      }
    });

    it("exact shares agree with binom.test", async () => {
      const cases = [
        [0, 7],
        [3, 7],
        [7, 7],
        [1, 1],
        [40, 300],
      ] as const;
      const r = await askR(cases.map(([k, n], i) => `say("c${i}", binom.test(${k}, ${n})$conf.int)`).join("\n"));
      for (const [i, [k, n]] of cases.entries()) {
        const { low, high } = exactShare(k, n);
        near([low, high], r[`c${i}`]!, 1e-9, `${k} of ${n}`);
      }
    });

    it.each([
      [8, 40, "between"],
      [9, 150, "all"],
    ] as const)("Turnbull is at least as likely as survfit's, and close to it (seed %i)", async (seed, n, mixture) => {
      const { holds } = randomPulls(seed, n, mixture);
      const r = await askR(`f <- survfit(${intervals(holds)} ~ 1); say("time", f$time); say("chance", f$surv)`);
      const found = turnbull(holds);
      expect(found.gainLeft).toBeLessThan(1e-9);
      // survfit stops its self-consistency early (its own masses move in the fourth digit yet): 0.02 is its error, not ours,
      // which the conditions of Kuhn and Tucker just checked bound.
      for (const step of found.steps) {
        let theirs = 1;
        for (const [k, time] of r.time!.entries()) if (time <= step.load) theirs = r.chance![k]!;
        expect(Math.abs(theirs - step.chance)).toBeLessThan(0.02);
      }
    });

    // One run of R for all fits: it takes seconds to start.
    const mixtures: [number, number, Mixture][] = [
      [10, 60, "exact"],
      [11, 60, "right"],
      [12, 80, "all"],
      [13, 80, "between"],
      [14, 300, "ties"],
      [15, 12, "all"],
    ];
    const cases = LAWS.flatMap((law) => mixtures.map(([seed, n, mixture]) => ({ law, seed, n, mixture })));

    it("survreg's coefficients, standard errors and log-likelihood come to 1e-6 under every law and ending", async () => {
      const r = await askR(
        cases
          .map(({ law, seed, n, mixture }, k) => {
            const { holds, group, x } = randomPulls(seed, n, mixture, 3);
            return `
        g <- factor(${vector(group)}); x <- ${vector(x)}
        f <- survreg(${intervals(holds)} ~ g + x, dist="${law}", control=survreg.control(rel.tolerance=1e-13, maxiter=200))
        say("b${k}", c(f$coefficients, log(f$scale))); say("se${k}", sqrt(diag(f$var))); say("ll${k}", f$loglik[2])`;
          })
          .join("\n"),
      );
      for (const [k, { law, seed, n, mixture }] of cases.entries()) {
        const what = `${law}, seed ${seed}, ${mixture}`;
        const { holds, group, x } = randomPulls(seed, n, mixture, 3);
        const rows = holds.flatMap((_, i) => [1, group[i] === 1 ? 1 : 0, group[i] === 2 ? 1 : 0, x[i]!]);
        const fit: AftFit = fitAft({
          law,
          observations: observations(holds),
          terms: { names: ["intercept", "g1", "g2", "x"], rows: Float64Array.from(rows) },
        });
        if (fit.kind !== "fitted") throw new Error(JSON.stringify(fit));
        near([...fit.terms.map((t) => t.value), fit.logScale.value], r[`b${k}`]!, 1e-6, `${what}: coefficients`);
        near([...fit.terms.map((t) => t.u), fit.logScale.u], r[`se${k}`]!, 1e-6, `${what}: standard errors`);
        near([fit.logLikelihood], r[`ll${k}`]!, 1e-9, `${what}: log-likelihood`);
      }
    });
  },
);
