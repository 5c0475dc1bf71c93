/**
 * What stands where in a rig file, `rodebench/rig@1`. Names and shape only: quantities are read, and gear is looked
 * up, where the file becomes a rig.
 */
import * as z from "zod";
import { loopText } from "../gear/index.ts";

/** Format of a rig file. */
export const RIG_FORMAT = "rodebench/rig@1";
/** More parts than any rode has; keeps a hostile file from costing time. */
const MOST_PARTS = 1000;
const MOST_POINTS = 200;

/** A quantity as text with a unit or as a bare number in SI; `what` and `example` make its error and its description. */
function quantity(what: string, example: string) {
  const expected = `${what} is expected, such as "${example}"`;
  return z.union([z.string(), z.number()], { error: expected }).meta({ description: expected });
}

function text(what: string) {
  const expected = `${what} is expected, in at most 200 characters`;
  return z.string({ error: expected }).min(1, { error: expected }).max(200, { error: expected });
}

const name = text("a name");
const word = (what: string, example: string) => text(`${what}, such as ${example}`);
const strengths = {
  workingLoad: quantity("a force", "8 kN").optional(),
  breakingLoad: quantity("a force", "32 kN").optional(),
};

const chain = z.strictObject({
  grade: z.union([z.string().min(1), z.number()], { error: 'a grade is expected, such as "30"' }),
  size: quantity("a length", "10 mm"),
  standard: word("a standard", "ISO 4565").optional(),
  length: quantity("a length", "30 m"),
  massPerLength: quantity("a mass per length", "2.2 kg/m").optional(),
  name: name.optional(),
});

const rope = z.strictObject({
  fibre: word("a fibre", "polyamide"),
  lay: word("a lay", "three-strand"),
  diameter: quantity("a length", "14 mm"),
  length: quantity("a length", "20 m"),
  massPerLength: quantity("a mass per length", "0.12 kg/m").optional(),
  loop: loopText.optional(),
  name: name.optional(),
});

const wire = z.strictObject({
  material: word("a material", "stainless"),
  construction: word("a construction", "7x19"),
  diameter: quantity("a length", "8 mm"),
  length: quantity("a length", "20 m"),
  massPerLength: quantity("a mass per length", "0.25 kg/m").optional(),
  name: name.optional(),
});

const stretchPair = z.tuple([quantity("a strain", "6 %"), quantity("a force", "1500 N")], {
  error: "a pair of strain and load is expected, such as [0.06, 1500 N]",
});
const stretchExpected = "a list of strain and load is expected, such as [[0.06, 1500 N], [0.12, 5 kN]]";

const line = z.strictObject({
  length: quantity("a length", "20 m"),
  massPerLength: quantity("a mass per length", "0.12 kg/m"),
  density: quantity("a density", "1140 kg/m3"),
  stiffness: quantity("a force", "90 kN").optional(),
  stretch: z
    .array(stretchPair, { error: stretchExpected })
    .min(1, { error: stretchExpected })
    .max(MOST_POINTS, { error: `at most ${MOST_POINTS} points are expected` })
    .optional(),
  loop: loopText.optional(),
  diameter: quantity("a length", "14 mm").optional(),
  drag: z
    .strictObject(
      { across: quantity("a drag coefficient", "1.2"), along: quantity("a drag coefficient", "0.1") },
      { error: "drag coefficients across and along are expected, such as { across: 1.2, along: 0.1 }" },
    )
    .optional(),
  ...strengths,
  material: z
    .enum(["chain", "rope", "wire", "line"], { error: "one of chain, rope, wire, line is expected" })
    .optional(),
  name: name.optional(),
});

const weight = z.strictObject({
  mass: quantity("a mass", "15 kg"),
  density: quantity("a density", "7850 kg/m3"),
  ...strengths,
  name: name.optional(),
});

const fitting = { size: quantity("a length", "10 mm"), name: name.optional() };
const shackle = z.strictObject({ shape: word("a shape", "bow").optional(), ...fitting });
const swivel = z.strictObject(fitting);

/** One key each: what the part is. */
const part = z
  .strictObject(
    {
      chain: chain.optional(),
      rope: rope.optional(),
      wire: wire.optional(),
      line: line.optional(),
      weight: weight.optional(),
      shackle: shackle.optional(),
      swivel: swivel.optional(),
    },
    { error: "a part is expected, such as chain: { grade: 30, size: 10 mm, length: 30 m }" },
  )
  .meta({ minProperties: 1, maxProperties: 1 });

const bottom = {
  bottomSlope: quantity("an angle", "3 deg").optional(),
  bottomFriction: quantity("a ratio", "0.7").optional(),
};

const air = z.strictObject({ medium: z.literal("air"), rise: quantity("a length", "9 m"), ...bottom });

const water = z.strictObject({
  medium: z.literal("water"),
  depth: quantity("a length", "8 m"),
  rollerHeight: quantity("a length", "1.5 m"),
  waterDensity: quantity("a density", "1025 kg/m3").optional(),
  ...bottom,
  current: quantity("a speed", "1 kn").optional(),
});

/** Fields of one medium that have no meaning in the other, and what stands there instead. */
export const OTHER_MEDIUM: Readonly<Record<"air" | "water", Readonly<Record<string, string>>>> = {
  air: {
    depth: "a rig in air has no depth; its rise is expected",
    rollerHeight: "a rig in air has no roller above water; its rise is expected",
    waterDensity: "a rig in air has no water; medium: water is expected with it",
    current: "a rig in air has no current; medium: water is expected with it",
  },
  water: { rise: "a rig in water has depth and rollerHeight in place of a rise" },
};

const rode = z
  .array(part, { error: "a list of parts from the anchor to the bow is expected" })
  .min(1, { error: "at least one part is expected, such as chain: { grade: 30, size: 10 mm, length: 30 m }" })
  .max(MOST_PARTS, { error: `at most ${MOST_PARTS} parts are expected` });

export const rigFileShape = z.strictObject(
  {
    format: z.literal(RIG_FORMAT, { error: `${RIG_FORMAT} is expected` }),
    name: name.optional(),
    setting: z.discriminatedUnion("medium", [air, water], {
      error: "a setting with medium: air or medium: water is expected",
    }),
    rode,
    uncertainty: z
      .strictObject(
        {
          massPerLength: quantity("a ratio", "2 %").optional(),
          rise: quantity("a length", "0.1 m").optional(),
          depth: quantity("a length", "0.2 m").optional(),
          length: quantity("a ratio", "1 %").optional(),
          stretch: quantity("a ratio", "20 %").optional(),
          friction: quantity("a ratio", "0.2").optional(),
          bottomSlope: quantity("an angle", "1 deg").optional(),
          waterDensity: quantity("a density", "3 kg/m3").optional(),
          current: quantity("a speed", "0.2 kn").optional(),
        },
        { error: "standard uncertainties are expected, such as { massPerLength: 2 %, rise: 0.1 m }" },
      )
      .optional(),
  },
  { error: `a rig file is expected, which begins with format: ${RIG_FORMAT}` },
);

/** A rig file as plain data, its quantities unread. */
export type RigFile = z.output<typeof rigFileShape>;
export type RigFilePart = RigFile["rode"][number];
export type RigFileSetting = RigFile["setting"];

/** The shape as JSON Schema (draft 2020-12), for editors and other programs. */
export function rigFileSchema(): Record<string, unknown> {
  return z.toJSONSchema(rigFileShape, { io: "input" }) as Record<string, unknown>;
}
