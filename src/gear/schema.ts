/** The gear file, `rodebench/gear@1`: what may stand where. Meaning (units, sources that exist) is checked in reading. */
import { z } from "zod";
import { loopText } from "./loop.ts";

const GEAR_FORMAT = "rodebench/gear@1";

const quantity = z.union([z.string(), z.number()], { error: 'a quantity with its unit is expected, such as "10 mm"' });
const word = z.string({ error: "a word is expected" }).min(1, { error: "a word is expected" });
const basis = z.enum(["seen", "computed", "recalled", "stated", "measured"], {
  error: "one of seen, computed, recalled, stated, measured is expected",
});

const origin = { source: word.optional(), basis: basis.optional(), spread: quantity.optional(), note: word.optional() };

/** `share: 4, of: workingLoad` and the like: a load told by another of the same row. */
const shareOf = z.strictObject({ share: quantity, of: z.enum(["workingLoad", "breakingLoad"]), ...origin });
const valueWith = z.strictObject({ value: quantity, ...origin });
const oneFigure = z.union([z.string(), z.number(), valueWith, shareOf]);
const figure = z.union([oneFigure, z.array(oneFigure).min(1)], {
  error:
    "a figure is expected: a quantity, or { value, source, basis, spread, note }, or { share, of }, or a list of these",
});

const pair = z.tuple([quantity, quantity]);
const stretchPoints = z.array(pair).min(1);
const stretch = z.union(
  [
    z.literal("none"),
    z.strictObject({ stiffness: quantity, ...origin }),
    z.strictObject({ modulus: quantity, areaFactor: quantity, ...origin }),
    z.strictObject({ curve: z.union([word, stretchPoints]), ...origin }),
  ],
  {
    error:
      'a stretch is expected: none, { stiffness: "90 kN" }, { modulus: "110 GPa", areaFactor: 0.6 } or { curve: a name, or a list such as [[0.05, "10 %"]] }',
  },
);

const common = {
  density: figure.optional(),
  workingLoad: figure.optional(),
  breakingLoad: figure.optional(),
  ...origin,
};
const line = { ...common, massPerLength: figure, stretch: stretch.optional() };

const chain = z.strictObject({
  grade: z.union([z.string(), z.number()], { error: 'a grade is expected, such as "30"' }),
  size: quantity,
  standard: word.optional(),
  bar: quantity.optional(),
  pitch: quantity.optional(),
  insideWidth: quantity.optional(),
  ...line,
});
const rope = z.strictObject({
  fibre: word,
  lay: word,
  diameter: quantity,
  wetStrength: figure.optional(),
  loop: loopText.optional(),
  ...line,
});
const wire = z.strictObject({ material: word, construction: word, diameter: quantity, ...line });
const point = z.strictObject({ what: word, size: quantity, mass: figure, ...common });

const row = z
  .strictObject({ chain: chain.optional(), rope: rope.optional(), wire: wire.optional(), point: point.optional() })
  .refine((kinds) => Object.values(kinds).filter((kind) => kind !== undefined).length === 1, {
    error: "one of chain, rope, wire, point is expected",
  });

const source = z.strictObject({ cite: word, address: word.optional(), note: word.optional() });

const curve = z.strictObject({
  /** Strain against share of the breaking load. */
  points: z.array(pair).min(2, { error: "at least two points, each [strain, share of breaking load], are expected" }),
  /** Strains known at one share; the first is the curve's own. */
  known: z.strictObject({
    at: quantity,
    strain: z.union([valueWith, z.array(valueWith).min(1)], {
      error: "{ value, source, basis, spread, note } or a list of these is expected",
    }),
  }),
});

export const gearFile = z.strictObject({
  format: z.literal(GEAR_FORMAT, { error: `${GEAR_FORMAT} is expected` }),
  sources: z.record(z.string(), source).optional(),
  curves: z.record(z.string(), curve).optional(),
  /** What every row of the file has unless it says otherwise. */
  defaults: z
    .strictObject({
      source: word.optional(),
      basis: basis.optional(),
      density: figure.optional(),
      wetStrength: figure.optional(),
      workingLoad: figure.optional(),
    })
    .optional(),
  rows: z.array(row).min(1, { error: "at least one row is expected" }),
});

export type GearFile = z.infer<typeof gearFile>;
export type RowText = GearFile["rows"][number];
export type FigureText = z.infer<typeof figure>;
export type StretchText = z.infer<typeof stretch>;
export type OriginText = {
  source?: string | undefined;
  basis?: z.infer<typeof basis> | undefined;
  spread?: string | number | undefined;
  note?: string | undefined;
};

/** The shape as JSON Schema (draft 2020-12), for editors and other programs. */
export function gearFileSchema(): Record<string, unknown> {
  return z.toJSONSchema(gearFile, { io: "input", unrepresentable: "any" }) as Record<string, unknown>;
}
