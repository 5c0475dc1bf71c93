/** What stands where in a plan file, `rodebench/plan@1`. Names and shape only; quantities are read where it becomes a plan. */
import * as z from "zod";
import { CRITERIA, PLAN_FORMAT } from "./plan.ts";

const MOST_CANDIDATES = 50;
const MOST_ROWS = 50;

function quantity(what: string, example: string) {
  return z.union([z.string(), z.number()], { error: `${what} is expected, such as "${example}"` });
}

function text(what: string) {
  const expected = `${what} is expected, in at most 200 characters`;
  return z.string({ error: expected }).min(1, { error: expected }).max(200, { error: expected });
}

const group = (what: string) => z.record(z.string(), z.unknown(), { error: `${what} is expected` });

const load = z.strictObject({
  mean: quantity("a force", "3 kN").optional(),
  peak: quantity("a force", "4.5 kN").optional(),
  u: quantity("a standard uncertainty", "300 N").optional(),
  at: z.enum(["anchor", "bow", "horizontal"], { error: "anchor, bow or horizontal is expected" }).optional(),
  boat: z
    .union([text("the path of a boat file"), group("a boat")], {
      error: "the path of a boat file, or a boat, is expected",
    })
    .optional(),
  wind: quantity("a speed", "40 kn").optional(),
  by: z.enum(["measured", "windage"], { error: "measured or windage is expected" }).optional(),
  gust: z
    .enum(["froya", "kaimal-a", "kaimal-b", "kaimal-c", "ochi-shin"], {
      error: "one of froya, kaimal-a, kaimal-b, kaimal-c, ochi-shin is expected",
    })
    .optional(),
});

const surge = z.strictObject({
  speed: quantity("a speed", "1 kn").optional(),
  mass: quantity("a mass", "8 t").optional(),
  distance: quantity("a length", "0.8 m").optional(),
  u: quantity("a standard uncertainty", "0.2 kn").optional(),
});

const limits = z.strictObject({
  workingLoad: quantity("a share", "100 %").optional(),
  breakingLoad: quantity("a share", "40 %").optional(),
  strength: quantity("a share", "25 %").optional(),
  ropeShare: quantity("a share", "25 %").optional(),
  anchorAngle: quantity("an angle", "8 deg").optional(),
  peak: quantity("a force", "8 kN").optional(),
  weight: quantity("a mass", "120 kg").optional(),
  volume: quantity("a volume", "0.08 m3").optional(),
  span: quantity("a length", "60 m").optional(),
  price: z.number({ error: "a number is expected" }).positive({ error: "a price above zero is expected" }).optional(),
});

const snubber = z.strictObject({
  fibre: text("a fibre").optional(),
  lay: text("a lay").optional(),
  diameter: quantity("a length", "14 mm"),
  length: quantity("a length", "9 m"),
  slack: quantity("a length", "3 m").optional(),
  beam: quantity("a length", "2.4 m").optional(),
  heading: quantity("an angle", "20 deg").optional(),
  ends: z.enum(["spliced", "knotted"], { error: "spliced or knotted is expected" }).optional(),
  within: z.boolean({ error: "true or false is expected" }).optional(),
});

const candidate = z.strictObject(
  {
    name: text("a name").optional(),
    rode: z.array(z.unknown(), { error: "a list of parts is expected, as in a rig file" }).optional(),
    rig: z
      .union([text("the path of a rig file"), group("a rig")], {
        error: "the path of a rig file, or a rig, is expected",
      })
      .optional(),
    price: z
      .number({ error: "a number is expected" })
      .min(0, { error: "a price of zero or more is expected" })
      .optional(),
    snubber: snubber.optional(),
  },
  { error: "a candidate is expected, with a rode or a rig" },
);

const chains = z.strictObject({
  workingLoad: quantity("a force", "12 kN").optional(),
  asStrongAs: z
    .strictObject(
      {
        grade: z.union([z.string().min(1), z.number()], { error: 'a grade is expected, such as "30"' }),
        size: quantity("a length", "10 mm"),
      },
      { error: 'a chain is expected, such as { grade: "30", size: 10 mm }' },
    )
    .optional(),
  grades: z
    .array(z.union([z.string().min(1), z.number()], { error: 'a grade is expected, such as "43"' }), {
      error: "a list of grades is expected",
    })
    .min(1, { error: "a list of grades is expected" })
    .max(20, { error: "at most 20 grades are expected" }),
  length: quantity("a length", "45 m"),
});

export const planShape = z.strictObject(
  {
    format: z.literal(PLAN_FORMAT, { error: `${PLAN_FORMAT} is expected` }),
    name: text("a name").optional(),
    note: z
      .string({ error: "text is expected" })
      .max(4000, { error: "at most 4000 characters are expected" })
      .optional(),
    setting: group("a setting, as in a rig file").optional(),
    uncertainty: group("standard uncertainties, as in a rig file").optional(),
    load,
    surge: surge.optional(),
    winds: z
      .array(quantity("a speed", "20 kn"), { error: "a list of winds is expected" })
      .max(MOST_ROWS, { error: `at most ${MOST_ROWS} winds are expected` })
      .optional(),
    loads: z
      .array(quantity("a force", "2 kN"), { error: "a list of loads is expected" })
      .max(MOST_ROWS, { error: `at most ${MOST_ROWS} loads are expected` })
      .optional(),
    limits: limits.optional(),
    criteria: z
      .array(z.enum(CRITERIA, { error: `one of ${CRITERIA.join(", ")} is expected` }), {
        error: "a list of criteria is expected",
      })
      .min(1, { error: "at least one criterion is expected" })
      .optional(),
    currency: text("a currency").optional(),
    chains: chains.optional(),
    candidates: z
      .array(candidate, { error: "a list of candidates is expected" })
      .max(MOST_CANDIDATES, { error: `at most ${MOST_CANDIDATES} candidates are expected` })
      .optional(),
  },
  { error: "a plan, a group of fields, is expected" },
);

export type PlanFields = z.output<typeof planShape>;

/** The shape as JSON Schema (draft 2020-12), for editors and other programs. */
export function planFileSchema(): Record<string, unknown> {
  return z.toJSONSchema(planShape, { io: "input", unrepresentable: "any" }) as Record<string, unknown>;
}
