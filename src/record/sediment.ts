/**
 * Grain classes of a seabed by two open standards, as `standard:class`. Bounds are grain diameters in mm; a class holds
 * its lower bound and not its upper one.
 * @source ISO 14688-1:2017, table of size fractions; Wentworth (1922), "A scale of grade and class terms for clastic
 * sediments", whose bounds are powers of two of a millimetre. Both recalled, not seen.
 */
export interface SedimentClass {
  readonly code: string;
  readonly from_mm: number;
  readonly below_mm: number;
}

const fractions = (standard: string, classes: readonly (readonly [string, number])[]): SedimentClass[] =>
  classes.map(([name, below_mm], i) => ({
    code: `${standard}:${name}`,
    from_mm: i === 0 ? 0 : classes[i - 1]![1],
    below_mm,
  }));

/** Classes of grain size of the two scales, with their bounds. */
export const sedimentClasses: readonly SedimentClass[] = [
  ...fractions("iso-14688", [
    ["clay", 0.002],
    ["fine-silt", 0.0063],
    ["medium-silt", 0.02],
    ["coarse-silt", 0.063],
    ["fine-sand", 0.2],
    ["medium-sand", 0.63],
    ["coarse-sand", 2],
    ["fine-gravel", 6.3],
    ["medium-gravel", 20],
    ["coarse-gravel", 63],
    ["cobble", 200],
    ["boulder", 630],
    ["large-boulder", Number.POSITIVE_INFINITY],
  ]),
  ...fractions("wentworth", [
    ["clay", 2 ** -8],
    ["silt", 2 ** -4],
    ["very-fine-sand", 2 ** -3],
    ["fine-sand", 2 ** -2],
    ["medium-sand", 2 ** -1],
    ["coarse-sand", 1],
    ["very-coarse-sand", 2],
    ["granule", 4],
    ["pebble", 64],
    ["cobble", 256],
    ["boulder", Number.POSITIVE_INFINITY],
  ]),
];

/** The class a grain of this diameter (mm) belongs to, by `iso-14688` or `wentworth`. */
export function sedimentClassOf(diameter_mm: number, standard: "iso-14688" | "wentworth"): SedimentClass | undefined {
  return sedimentClasses.find(
    (c) => c.code.startsWith(`${standard}:`) && diameter_mm >= c.from_mm && diameter_mm < c.below_mm,
  );
}
