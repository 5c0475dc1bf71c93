import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  bowSurge,
  elevationDensity,
  froyaHourMean,
  froyaWind,
  type GustModel,
  gust,
  harmonics,
  inertiaOf,
  jonswap,
  meanSquareWind,
  moment,
  piersonMoskowitz,
  profiles,
  spheroidAddedMass,
  surgeTransfer,
  valueAt,
  type WindSpectrum,
  waveNumber,
  windAt,
  windDensity,
  windVariance,
} from "../../src/sea/index.ts";
import { derivationWords } from "../../src/words/index.ts";
import { plain, tern } from "./demo.ts";

const winds: readonly WindSpectrum[] = [
  { kind: "froya", wind: 15, height: 10 },
  { kind: "kaimal", wind: 12, height: 10, turbulence: "B" },
  { kind: "ochi-shin", wind: 18 },
];
const draws = (seed: number) => () => {
  seed = (1103515245 * seed + 12345) % 2147483648;
  return seed / 2147483648;
};

describe("spectra return their own variance", () => {
  it.each(winds)("wind: %o in a record of 10 minutes", (spectrum) => {
    const record = harmonics((from, to) => windVariance(spectrum, from, to), 600, 1, draws(1));
    const steps = 2400;
    let sum = 0;
    for (let i = 0; i < steps; i++) sum += valueAt(record, (600 * i) / steps) ** 2;
    const expected = windVariance(spectrum, 0.5 / 600, 600.5 / 600);
    // Even steps of a whole period at four times the highest frequency: exact but for rounding.
    expect(Math.abs(sum / steps - expected)).toBeLessThan(1e-9 * expected);
  });

  it.each([piersonMoskowitz(2, 6), jonswap(2, 6)])("waves: $kind in a record of 20 minutes", (sea) => {
    const density = (f: number): number => 2 * Math.PI * elevationDensity(sea, 2 * Math.PI * f);
    const band = (from: number, to: number): number => {
      // Simpson over a band of 1/1200 Hz; the spectrum is smooth on that scale.
      const middle = (from + to) / 2;
      return ((to - from) / 6) * (density(from) + 4 * density(middle) + density(to));
    };
    const record = harmonics(band, 1200, 1, draws(2));
    let sum = 0;
    const steps = 4800;
    for (let i = 0; i < steps; i++) sum += valueAt(record, (1200 * i) / steps) ** 2;
    // The record stops at 1 Hz, six times the peak: (5/4)(f_p/f)⁴ = 1e-3 of the variance lies above.
    expect(4 * Math.sqrt(sum / steps)).toBeGreaterThan(1.998);
    expect(4 * Math.sqrt(sum / steps)).toBeLessThan(2.0001);
  });

  it.each(winds)("wind: quadrature of %o agrees with a plain sum a thousand times as fine", (spectrum) => {
    const [a, b] = [Math.log(1 / 3600), Math.log(1)];
    const n = 40000;
    let sum = 0;
    for (let i = 0; i < n; i++) {
      const f = Math.exp(a + ((i + 0.5) * (b - a)) / n);
      sum += windDensity(spectrum, f) * f * ((b - a) / n);
    }
    // Midpoint rule: h²/24 of the curvature, 1e-8; a corner of Ochi and Shin inside a step costs it up to 1e-7.
    expect(Math.abs(windVariance(spectrum, 1 / 3600, 1) / sum - 1)).toBeLessThan(1e-6);
  });
});

describe("gusts", () => {
  const models: readonly GustModel[] = [
    { kind: "froya" },
    { kind: "kaimal", turbulence: "A" },
    { kind: "kaimal", turbulence: "C" },
    { kind: "ochi-shin" },
  ];

  it.each(models)("of %o grow as they shorten, and with the time they may come in", (model) => {
    const factor = (averaging: number, duration: number): number =>
      gust(model, { wind: 15, height: 10, averaging, duration }).factor;
    const shortening = [60, 20, 10, 3, 1].map((duration) => factor(600, duration));
    for (let i = 1; i < shortening.length; i++) expect(shortening[i]!).toBeGreaterThan(shortening[i - 1]!);
    expect(factor(3600, 3)).toBeGreaterThan(factor(600, 3));
    expect(factor(600, 3)).toBeGreaterThan(1.1);
    expect(factor(600, 3)).toBeLessThan(1.7);
  });

  it("of Frøya invert: the hour's mean of a ten-minute mean gives that mean back", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.5, max: 45, noNaN: true }),
        fc.double({ min: 3, max: 3600, noNaN: true }),
        (wind, seconds) => {
          expect(Math.abs(froyaWind(froyaHourMean(wind, 10, seconds), 10, seconds) - wind)).toBeLessThan(1e-11 * wind);
        },
      ),
      { seed: 2 },
    );
  });

  it("of Kaimal come from its filtered variance, summed plainly", () => {
    const spectrum = { kind: "kaimal", wind: 12, height: 10, turbulence: "B" } as const;
    const [averaging, duration] = [600, 3];
    let [m0, m2] = [0, 0];
    const df = 1e-4;
    for (let f = 1 / averaging + df / 2; f < 60; f += df) {
      const phase = Math.PI * f * duration;
      const kept = windDensity(spectrum, f) * (Math.sin(phase) / phase) ** 2 * df;
      m0 += kept;
      m2 += f * f * kept;
    }
    const root = Math.sqrt(2 * Math.log(Math.sqrt(m2 / m0) * averaging));
    const expected = 1 + ((root + 0.5772156649 / root) * Math.sqrt(m0)) / 12;
    const { factor } = gust({ kind: "kaimal", turbulence: "B" }, { wind: 12, height: 10, averaging, duration });
    // The plain sum stops at 60 Hz, which leaves out about 3 % of m2's tail beyond 17 Hz: 1e-3 of the factor's excess.
    expect(Math.abs(factor - expected)).toBeLessThan(2e-3 * (factor - 1));
  });
});

describe("wind over height", () => {
  it.each(Object.values(profiles))("%o: its mean square over a band is the integral of its square", (profile) => {
    const [from, to] = [0.5, 17];
    const n = 20000;
    let sum = 0;
    for (let i = 0; i < n; i++) sum += windAt(profile, from + ((i + 0.5) * (to - from)) / n) ** 2 / n;
    // Midpoint rule over 20000 steps: 1e-8.
    expect(Math.abs(meanSquareWind(profile, from, to) - sum)).toBeLessThan(1e-7);
    expect(windAt(profile, 10)).toBeCloseTo(1, 14);
  });

  it("of a thin band is the value there", () => {
    for (const profile of Object.values(profiles)) {
      const thin = meanSquareWind(profile, 4, 4.0001);
      expect(Math.abs(thin - windAt(profile, 4.00005) ** 2)).toBeLessThan(1e-9);
      expect(meanSquareWind(profile, 4, 4)).toBeCloseTo(windAt(profile, 4) ** 2, 12);
    }
  });
});

describe("Airy's wave number", () => {
  it("solves x tanh x = y from 1e-12 to 1e6", () => {
    fc.assert(
      fc.property(fc.double({ min: -12, max: 6, noNaN: true }), (power) => {
        const y = 10 ** power;
        const x = waveNumber(Math.sqrt(y), 1, 1);
        // Relative to y, the condition of the equation is 1 to 2.
        expect(Math.abs(x * Math.tanh(x) - y)).toBeLessThan(4e-15 * y);
      }),
      { seed: 4, numRuns: 1000 },
    );
  });
});

describe("surge in a sea from ahead", () => {
  it("goes to the water's own travel in long waves: coth kd, the mean over the draught", () => {
    for (const depth of [5, 20, 1000]) {
      const omega = 0.05;
      const k = waveNumber(omega, depth);
      // kL/2 and kT below 0.03: their first corrections are below 1e-3.
      expect(surgeTransfer(omega, 2, 0.1, depth) * Math.tanh(k * depth)).toBeCloseTo(1, 2);
    }
  });

  it("vanishes in waves as long as the boat", () => {
    const omega = Math.sqrt((2 * Math.PI * 9.80665) / 10);
    expect(Math.abs(surgeTransfer(omega, 10, 0.5, Number.POSITIVE_INFINITY))).toBeLessThan(1e-12);
  });

  it("is the same in water of 400 m and in water without end", () => {
    for (const omega of [0.5, 1, 2, 4]) {
      const deep = surgeTransfer(omega, 9, 0.6, Number.POSITIVE_INFINITY);
      expect(Math.abs(surgeTransfer(omega, 9, 0.6, 400) - deep)).toBeLessThan(1e-8);
    }
  });

  it("agrees with a plain sum over the spectrum", () => {
    const sea = jonswap(0.6, 3);
    const { deviation, speedDeviation } = bowSurge(tern, sea, 6);
    let [m0, m2] = [0, 0];
    const step = 1e-3;
    for (let omega = 0.2; omega < 40; omega += step) {
      const part = surgeTransfer(omega, 10.1, 0.6, 6) ** 2 * elevationDensity(sea, omega) * step;
      m0 += part;
      m2 += omega * omega * part;
    }
    expect(Math.abs(deviation / Math.sqrt(m0) - 1)).toBeLessThan(1e-4);
    expect(Math.abs(speedDeviation / Math.sqrt(m2) - 1)).toBeLessThan(1e-3);
  });

  it("is at most the water's own travel: a long swell moves the boat by about its height's worth", () => {
    const swell = jonswap(1, 14);
    const { significantAmplitude } = bowSurge(tern, swell, Number.POSITIVE_INFINITY);
    expect(significantAmplitude).toBeLessThan(0.5);
    expect(significantAmplitude).toBeGreaterThan(0.4);
    expect(2 * Math.sqrt(moment(swell, 0))).toBeCloseTo(0.5, 8);
  });
});

describe("inertia", () => {
  // α₀ and β₀ of Lamb's ellipsoid are integrals over λ; summed here plainly in t, λ = t/(1 − t).
  const byIntegral = (slenderness: number): { along: number; across: number; turn: number } => {
    const [a2, b2] = [slenderness ** 2, 1];
    let [alpha, beta] = [0, 0];
    const n = 200000;
    for (let i = 0; i < n; i++) {
      const t = (i + 0.5) / n;
      const lambda = (t / (1 - t)) ** 2;
      const root = Math.sqrt(a2 + lambda) * (b2 + lambda);
      const step = (2 * t) / (1 - t) ** 3 / n;
      alpha += (slenderness * step) / ((a2 + lambda) * root);
      beta += (slenderness * step) / ((b2 + lambda) * root);
    }
    // Turning end over end, §115, in units of m (a² + b²)/5.
    const turn = ((a2 - b2) ** 2 * (beta - alpha)) / ((2 * (a2 - b2) + (a2 + b2) * (alpha - beta)) * (a2 + b2));
    return { along: alpha / (2 - alpha), across: beta / (2 - beta), turn };
  };

  it.each([1.05, 1.5, 3, 5, 12])(
    "of the water around a spheroid of a/b = %f is the integral of Lamb, §114 and 115",
    (slenderness) => {
      const [k, expected] = [spheroidAddedMass(slenderness), byIntegral(slenderness)];
      // The closed form cancels to about 1e-11 near the sphere; the plain sum is good to 1e-9.
      expect(Math.abs(k.along - expected.along)).toBeLessThan(1e-8);
      expect(Math.abs(k.across - expected.across)).toBeLessThan(1e-8);
    },
  );

  it("of a boat is more across than along, and every guess says how it was made", () => {
    const guesses = inertiaOf(plain);
    expect(guesses.surge.value).toBeGreaterThan(9000);
    expect(guesses.surge.value).toBeLessThan(9000 * 1.2);
    expect(guesses.sway.value).toBeGreaterThan(9000 * 1.6);
    expect(guesses.yaw.value).toBeGreaterThan(9000 * 9);
    for (const { from } of [guesses.surge, guesses.sway, guesses.yaw])
      expect(derivationWords(from).length).toBeGreaterThan(20);
  });
});
