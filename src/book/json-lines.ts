import type { z } from "zod";
import { InputError, readJson } from "../quantity/index.ts";

/** The values of a text of JSON lines, each checked. @throws InputError naming the line */
export function jsonLines<T>(text: string, path: string, schema: z.ZodType<T>): T[] {
  return text.split("\n").flatMap((line, i) => {
    if (line.trim() === "") return [];
    const parsed = schema.safeParse(readJson(line, `${path}: line ${i + 1}`));
    if (!parsed.success) {
      const issue = parsed.error.issues[0];
      throw new InputError(
        `${path}: line ${i + 1}`,
        issue?.path.join(".") || "another shape",
        issue?.message ?? "an exported line is expected",
      );
    }
    return [parsed.data];
  });
}
