/** Answers of settle, ladder, find, match, carry and reduce. A number is SI, its unit in the field's name. */
import * as z from "zod";

const end = z.looseObject({
  tension_N: z.number(),
  angle_deg: z.number().describe("above the horizontal"),
});
const uncertainNumber = z.looseObject({ value: z.number(), u: z.number().describe("standard uncertainty") });

/** What `remarks` tell: which part states no diameter, and the one taken for it. */
const remarks = z
  .array(
    z.looseObject({
      rig: z.string(),
      about: z.string(),
      part: z.int().min(1).describe("part of the rode, 1 next to the anchor"),
      name: z.string(),
      diameter_m: z.number(),
    }),
  )
  .optional();

const equilibrium = {
  anchor: z.looseObject({ ...end.shape, angleToBottom_deg: z.number() }),
  bow: end,
  horizontal_N: z.number(),
  span_m: z.number().describe("horizontal distance from anchor to bow"),
  grounded_m: z.number().describe("unstretched length on the bottom"),
  lifted_m: z.number().describe("unstretched length off the bottom"),
  stretch_m: z.number(),
  sag_m: z.number().describe("largest distance of the rode below the straight line between its ends, square to it"),
  scope: z
    .number()
    .nullable()
    .describe("length of the rode over the height of its upper end above the anchor; null where they are level"),
  energy_J: z.looseObject({ lift: z.number(), stretch: z.number() }),
};
const strength = z
  .array(
    z.looseObject({
      part: z.int().min(1).describe("part of the rode, 1 next to the anchor"),
      name: z.string(),
      load_N: z.number().describe("highest tension within the part"),
      workingLoad_N: z.number().nullable().describe("working load limit; null where none is stated"),
      breakingLoad_N: z.number().nullable().describe("minimum breaking load; null where none is stated"),
      past: z.enum(["breakingLoad", "workingLoad"]).nullable().describe("the heavier limit the load is past"),
    }),
  )
  .describe("what each part carries against what it stands");
const settledFields = z.looseObject({ ...equilibrium, strength });
const matched = {
  anchorAngle_deg: z.number(),
  length_m: z.number(),
  scope: z.number(),
  rig: settledFields,
  other: settledFields,
};

export const settled = z.looseObject({ format: z.literal("rodebench/settled@1"), ...equilibrium, strength, remarks });

export const ladder = z.looseObject({
  format: z.literal("rodebench/ladder@1"),
  rows: z.array(
    z.looseObject({
      ...equilibrium,
      strength,
      movement_m: z.number().nullable().describe("of the loaded end since the row before"),
      work_J: z.number().nullable().describe("since the row before"),
      stiffness_N_per_m: z.number().nullable(),
    }),
  ),
  remarks,
});

export const found = z.looseObject({
  format: z.literal("rodebench/found@1"),
  unknown: z.string().describe('"length:1", "depth", "rise", "pull", "mass:2"'),
  value: z.number().describe("SI"),
  unit: z.enum(["m", "kg", "N", "1"]).describe("of the value"),
  settled: settledFields,
  remarks,
});

export const match = z.looseObject({
  format: z.literal("rodebench/matched@1"),
  ...matched,
  reverse: z.looseObject(matched).nullable(),
  remarks,
});

export const carried = z.looseObject({
  format: z.literal("rodebench/carried@1"),
  rows: z.array(
    z.looseObject({
      read_N: z.number(),
      anchorAngle_deg: z.number(),
      angleToBottom_deg: z.number(),
      says: z.enum(["equal", "atMost"]),
      anchor_N: z.number(),
      bow_N: z.number(),
      uncertainty: z.looseObject({ anchor_N: z.number().nullable(), bow_N: z.number().nullable() }),
    }),
  ),
  notCarried: z.array(z.looseObject({ read_N: z.number(), why: z.string(), cause: z.string().optional() })),
  verdicts: z.array(z.looseObject({ simplification: z.string(), says: z.string() })),
  remarks,
});

const fitRow = {
  load_N: z.number(),
  residual: z.number().describe("in standard uncertainties"),
  weight: z.number(),
  outlier: z.boolean(),
};

export const reduced = z.looseObject({
  format: z.literal("rodebench/reduced@1"),
  rows: z.array(z.looseObject({ ...fitRow, angle_deg: z.number().nullable(), theory_deg: z.number() })),
  release: z.array(z.looseObject({ ...fitRow, movement_m: z.number(), theory_m: z.number() })),
  fitted: z.looseObject({
    massPerLength_kg_per_m: uncertainNumber.nullable(),
    rise_m: uncertainNumber.nullable(),
    gaugeZero_deg: uncertainNumber.nullable(),
    rigGive_m_per_N: uncertainNumber.nullable(),
  }),
  verdicts: z.array(z.looseObject({ about: z.string(), load_N: z.number().nullable(), says: z.string() })),
});
