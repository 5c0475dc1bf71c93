/** The figures sizing rests on beside the gear catalogue (`data/sizing/facts.yaml`), each with its source. */
import * as z from "zod";
import { checkShape, InputError, quoted, readDocument } from "../quantity/index.ts";

const figure = z.strictObject({
  value: z.number().positive(),
  /** Standard uncertainty, in the unit of the value. */
  u: z.number().min(0),
  basis: z.enum(["seen", "recalled", "computed", "assumed"]),
  source: z.string(),
  note: z.string().optional(),
});
const byFibre = z.record(z.string(), figure);
const shape = z.strictObject({
  format: z.literal("rodebench/sizing-facts@1"),
  sources: z.record(z.string(), z.strictObject({ cite: z.string(), address: z.string().optional() })),
  rope: z.strictObject({
    /** 1, with the relative standard uncertainty of the stretch of a rope worked in seconds. */
    quick: figure,
    /** Share of the energy put into a stretch that comes back as heat. */
    loss: byFibre,
    /** Lasting stretch of a new rope. */
    workedIn: byFibre,
    /** J/(kg K) */
    specificHeat: byFibre,
    /** W/(m K), across. */
    conductivity: figure,
    /** W/(m² K), to the air. */
    film: figure,
    /** Share of the strength that is left at an end. */
    ends: z.strictObject({ spliced: figure, knotted: figure }),
  }),
  locker: z.strictObject({ chainSolid: figure, ropeSolid: figure }),
});

/** A figure with its uncertainty, source and how it was come by. */
export type Fact = z.output<typeof figure>;
/** The figures of a file, by their names. */
export type Facts = Omit<z.output<typeof shape>, "format">;

/** @throws InputError naming the field, also where a figure names a source that is not there */
export function readFacts(text: string, place: string): Facts {
  const { format: _, ...facts } = checkShape(readDocument(text, place), shape, place);
  for (const [path, one] of figures(facts)) {
    if (!Object.hasOwn(facts.sources, one.source))
      throw new InputError(`${place}: ${path}.source`, quoted(one.source), "one of the sources is expected");
  }
  return facts;
}

/** Every figure with its path. */
function figures(node: unknown, path = ""): [string, Fact][] {
  if (typeof node !== "object" || node === null) return [];
  if ("basis" in node) return [[path, node as Fact]];
  return Object.entries(node).flatMap(([key, inner]) => figures(inner, path === "" ? key : `${path}.${key}`));
}
