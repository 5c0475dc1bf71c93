import * as z from "zod";
import { schemaOf } from "../../src/cli/schemas/index.ts";

/**
 * Where a document does not hold to the schema of a format, as it is printed: read back from JSON Schema, not by the shape
 * it was made of.
 */
export function schemaTroubles(name: string, document: unknown): readonly string[] {
  const schema = z.fromJSONSchema(JSON.parse(JSON.stringify(schemaOf(name))) as never);
  const read = schema.safeParse(document);
  return read.success ? [] : read.error.issues.map((issue) => `${issue.path.join(".")}: ${issue.message}`);
}
