/** What every answer has: its format by name, and fields that may grow. */
import * as z from "zod";

export interface AnswerFormat {
  /** Without `rodebench/`. */
  readonly name: string;
  /** The command that prints it. */
  readonly about: string;
  readonly shape: z.ZodType;
}

/** The answer of a command, of one shape or one of several. */
export function answerFormat(name: string, about: string, ...shapes: readonly z.ZodRawShape[]): AnswerFormat {
  const each = shapes.map((fields) => z.looseObject({ format: z.literal(`rodebench/${name}`), ...fields }));
  return { name, about, shape: each.length === 1 ? each[0]! : z.union(each) };
}
