import { z } from "zod";
import { checkShape, DEGREE, InputError, nth, readDocument } from "../../quantity/index.ts";
import type { MarkCause } from "./cause.ts";
import { type Correction, type Mark, type MarkPlace, markKinds } from "./marks.ts";

/** Format of a file of corrections to the marks of a pull. */
export const CORRECTIONS_FORMAT = "rodebench/corrections@1";

const seconds = z.number();
const lay = z.strictObject({ kind: z.enum(markKinds), from_s: seconds, to_s: seconds });
const said = { by: z.string().optional(), at: z.string().optional(), why: z.string().optional() };
const mark = z.strictObject({
  id: z.string().min(1),
  kind: z.enum(markKinds),
  from_s: seconds,
  to_s: seconds,
  value_N: z.number().optional(),
  u_N: z.number().nonnegative().optional(),
  value_deg: z.number().optional(),
  u_deg: z.number().nonnegative().optional(),
  why: z.string(),
});

/** The shape of a file of corrections. */
export const correctionsSchema = z.strictObject({
  format: z.literal(CORRECTIONS_FORMAT),
  corrections: z.array(
    z.discriminatedUnion("change", [
      z.strictObject({ change: z.literal("move"), mark: z.string(), lay, from_s: seconds, to_s: seconds, ...said }),
      z.strictObject({ change: z.literal("take away"), mark: z.string(), lay, ...said }),
      z.strictObject({ change: z.literal("call"), mark: z.string(), lay, kind: z.enum(markKinds), ...said }),
      z.strictObject({
        change: z.literal("value"),
        mark: z.string(),
        lay,
        value_N: z.number(),
        u_N: z.number().nonnegative(),
        ...said,
      }),
      z.strictObject({ change: z.literal("add"), mark, ...said }),
    ]),
  ),
});

export type CorrectionsFile = z.infer<typeof correctionsSchema>;

/**
 * Reads a file of corrections.
 * @throws InputError about the first thing wrong: file, field, what stands there, what was expected
 */
export function readCorrections(text: string, place: string): Correction[] {
  const file = checkShape(readDocument(text, place), correctionsSchema, place);
  return file.corrections.map((c, i): Correction => {
    const who = attributionOf(c);
    switch (c.change) {
      case "move":
        return { ...who, change: c.change, mark: c.mark, lay: layOf(c.lay), from: c.from_s, to: c.to_s };
      case "take away":
        return { ...who, change: c.change, mark: c.mark, lay: layOf(c.lay) };
      case "call":
        return { ...who, change: c.change, mark: c.mark, lay: layOf(c.lay), kind: c.kind };
      case "value":
        return { ...who, change: c.change, mark: c.mark, lay: layOf(c.lay), value: c.value_N, u: c.u_N };
      default:
        return { ...who, change: c.change, mark: markOf(c.mark, `${place}: corrections${nth(i)}.mark`) };
    }
  });
}

/**
 * Corrections as the document `readCorrections` reads.
 * @param say tells in words why a mark was added
 */
export function correctionsToJson(
  corrections: readonly Correction[],
  say: (why: MarkCause) => string,
): CorrectionsFile {
  return {
    format: CORRECTIONS_FORMAT,
    corrections: corrections.map((c) => {
      const who = attributionOf(c);
      switch (c.change) {
        case "move":
          return { change: c.change, mark: c.mark, lay: layToJson(c.lay), from_s: c.from, to_s: c.to, ...who };
        case "take away":
          return { change: c.change, mark: c.mark, lay: layToJson(c.lay), ...who };
        case "call":
          return { change: c.change, mark: c.mark, lay: layToJson(c.lay), kind: c.kind, ...who };
        case "value":
          return { change: c.change, mark: c.mark, lay: layToJson(c.lay), value_N: c.value, u_N: c.u, ...who };
        default: {
          const { id, kind, from, to, value, u, of, why } = c.mark;
          const valued = of === "angle" ? { value_deg: value / DEGREE, u_deg: u / DEGREE } : { value_N: value, u_N: u };
          return { change: c.change, mark: { id, kind, from_s: from, to_s: to, ...valued, why: say(why) }, ...who };
        }
      }
    }),
  };
}

/** Who made a correction, when and why, as far as it says. */
function attributionOf({
  by,
  at,
  why,
}: {
  by?: string | undefined;
  at?: string | undefined;
  why?: string | undefined;
}) {
  return {
    ...(by === undefined ? {} : { by }),
    ...(at === undefined ? {} : { at }),
    ...(why === undefined ? {} : { why }),
  };
}

function layOf(l: z.infer<typeof lay>): MarkPlace {
  return { kind: l.kind, from: l.from_s, to: l.to_s };
}

function layToJson(l: MarkPlace): z.infer<typeof lay> {
  return { kind: l.kind, from_s: l.from, to_s: l.to };
}

/** A reversal is worth the angle it turned by, which may not be known (0); every other mark is worth a load. */
function markOf(m: z.infer<typeof mark>, place: string): Mark {
  const common = { id: m.id, kind: m.kind, from: m.from_s, to: m.to_s, why: { kind: "written", text: m.why } } as const;
  if (m.kind === "reversal")
    return { ...common, value: (m.value_deg ?? 0) * DEGREE, u: (m.u_deg ?? 0) * DEGREE, of: "angle" };
  if (m.value_N === undefined) throw new InputError(`${place}.value_N`, "", "a load in newtons is expected");
  return { ...common, value: m.value_N, u: m.u_N ?? 0, of: "force" };
}

/** The shape as JSON Schema (draft 2020-12), for editors and other programs. */
export function correctionsFileSchema(): Record<string, unknown> {
  return z.toJSONSchema(correctionsSchema, { io: "input" }) as Record<string, unknown>;
}
