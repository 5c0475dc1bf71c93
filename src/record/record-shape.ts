import { z } from "zod";
import { fieldsOf, type Kind } from "./schema.ts";

/** A record of a kind as it stands: its id, whether it is hidden, and every field, null where nothing is known. */
export function recordShape(kind: Kind): z.ZodObject {
  const shape: Record<string, z.ZodType> = { id: z.string(), hidden: z.boolean() };
  for (const [name, field] of fieldsOf(kind))
    shape[name] = z.nullable(field.earlier ?? field.schema).describe(field.expects.replace(/,? is expected$/, ""));
  return z.strictObject(shape);
}
