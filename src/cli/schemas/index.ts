/** A JSON Schema (draft 2020-12) for every format of a file that is read and of an answer that `--json` prints. */
import * as z from "zod";
import { bookFileSchema } from "../../book/index.ts";
import { gearFileSchema } from "../../gear/index.ts";
import { sweepFileSchema } from "../../motion/index.ts";
import { correctionsFileSchema, runFileSchema } from "../../pull/index.ts";
import { rigFileSchema } from "../../rode/index.ts";
import { boatFileSchema } from "../../sea/index.ts";
import { seriesFileSchema } from "../../series/index.ts";
import { planFileSchema } from "../../sizing/index.ts";
import { benchAnswers } from "./bench.ts";
import { bookAnswers } from "./book.ts";
import { documents } from "./documents.ts";
import { logAnswers } from "./logs.ts";
import { carried, found, ladder, match, reduced, settled } from "./statics.ts";

export type JsonSchema = Readonly<Record<string, unknown>>;

interface Format {
  readonly what: "file" | "answer";
  readonly about: string;
  readonly schema: () => JsonSchema;
}

const answer = (about: string, shape: z.ZodType): Format => ({
  what: "answer",
  about,
  schema: () => z.toJSONSchema(shape) as JsonSchema,
});
const file = (about: string, schema: () => JsonSchema): Format => ({
  what: "file",
  about,
  // A file may name its schema, so that editors complete it.
  schema: () => {
    const { properties, ...rest } = schema() as { properties?: object };
    return { ...rest, properties: { $schema: { type: "string" }, ...properties } };
  },
});

/** By the format's name without `rodebench/`. */
export const formats: Readonly<Record<string, Format>> = {
  "rig@1": file("a rode in its setting", rigFileSchema),
  "run@1": file("readings of a rig", runFileSchema),
  "boat@1": file("a boat as the wind meets her", boatFileSchema),
  "plan@1": file("rodes to be set side by side", planFileSchema),
  "series@1": file("a series of pulls to be planned", seriesFileSchema),
  "sweep@1": file("many rides: rigs, boats, weathers, seeds", sweepFileSchema),
  "gear@1": file("rows of gear", gearFileSchema),
  "book@1": file("book.json of a book as open files", bookFileSchema),
  "corrections@1": file("marks of a log corrected by hand", correctionsFileSchema),
  "settled@1": answer("settle", settled),
  "ladder@1": answer("ladder", ladder),
  "found@1": answer("find", found),
  "matched@1": answer("match", match),
  "carried@1": answer("carry", carried),
  "reduced@1": answer("reduce", reduced),
  ...Object.fromEntries(
    [...documents, ...bookAnswers, ...logAnswers, ...benchAnswers].map(({ name, about, shape }) => [
      name,
      answer(about, shape),
    ]),
  ),
};

/** The schema of a format, with its name and what it is of. */
export function schemaOf(name: string): JsonSchema {
  const { about, what, schema } = formats[name]!;
  const { $schema, ...rest } = schema();
  return { $schema, $id: `rodebench/${name}`, title: what === "file" ? about : `what ${about} --json prints`, ...rest };
}
