/** What is believed of holding before any pull, and how it is widened. */

/** Priors; standard deviations of normals, and of half-normals for spreads. */
export interface Priors {
  /** Holding over weight that m is centred on, and the deviation of its logarithm. */
  readonly timesWeight: number;
  readonly m: number;
  /** τ of the anchors. */
  readonly anchors: number;
  readonly angle: { readonly mean: number; readonly sd: number };
  readonly mass: { readonly mean: number; readonly sd: number };
  readonly seabed: number;
  readonly sites: number;
  readonly days: number;
  readonly testers: number;
  readonly scatter: number;
}

/**
 * Holding of some tens of times the anchor's weight within a factor of four or so (recalled); mass exponents 0.92 to 0.94
 * of UFC 4-159-03 widened for small anchors; holding falls with the angle; anchors differ by a factor of two, sites by less;
 * testers, by their gauges and by what they call holding, by no more than days do (assumed).
 */
export const USUAL_PRIORS: Priors = {
  timesWeight: 30,
  m: 1.5,
  anchors: 0.7,
  angle: { mean: -0.03, sd: 0.05 },
  mass: { mean: 0.93, sd: 0.2 },
  seabed: 0.7,
  sites: 0.4,
  days: 0.2,
  testers: 0.2,
  scatter: 0.5,
};

/** All deviations `times` as large: how much of an answer is the priors'. */
export function widened(priors: Priors, times: number): Priors {
  return {
    ...priors,
    m: priors.m * times,
    anchors: priors.anchors * times,
    angle: { ...priors.angle, sd: priors.angle.sd * times },
    mass: { ...priors.mass, sd: priors.mass.sd * times },
    seabed: priors.seabed * times,
    sites: priors.sites * times,
    days: priors.days * times,
    testers: priors.testers * times,
    scatter: priors.scatter * times,
  };
}

/** One prior by its name, read from and put into all of them. */
export interface PriorField {
  readonly name: string;
  /** What is believed itself, which may be of either sign; else a deviation or a factor, above zero. */
  readonly isMiddle: boolean;
  readonly of: (priors: Priors) => number;
  readonly put: (priors: Priors, value: number) => Priors;
}

const own = (
  name: "timesWeight" | "m" | "anchors" | "seabed" | "sites" | "days" | "testers" | "scatter",
): PriorField => ({
  name,
  isMiddle: false,
  of: (priors) => priors[name],
  put: (priors, value) => ({ ...priors, [name]: value }),
});
const middle = (name: string, key: "angle" | "mass"): PriorField => ({
  name,
  isMiddle: true,
  of: (priors) => priors[key].mean,
  put: (priors, value) => ({ ...priors, [key]: { ...priors[key], mean: value } }),
});
const deviation = (key: "angle" | "mass"): PriorField => ({
  name: key,
  isMiddle: false,
  of: (priors) => priors[key].sd,
  put: (priors, value) => ({ ...priors, [key]: { ...priors[key], sd: value } }),
});

/** Every number of the priors that may be changed, by the name it has on the command line and in an address. */
export const PRIOR_FIELDS: readonly PriorField[] = [
  own("timesWeight"),
  own("m"),
  own("anchors"),
  middle("angleMean", "angle"),
  deviation("angle"),
  middle("massMean", "mass"),
  deviation("mass"),
  own("seabed"),
  own("sites"),
  own("days"),
  own("testers"),
  own("scatter"),
];
/** Beyond these a prior says nothing, or all. */
export const PRIOR_RANGE = { least: 1e-3, most: 1e3 } as const;
