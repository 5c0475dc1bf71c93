import type { NoCause, NoEquilibrium } from "./model.ts";

/**
 * The answer that none exists.
 * @param given what was asked, N, m or rad as the cause has it
 * @param limit the nearest that would be answered, in the same unit
 */
export function noEquilibrium(cause: NoCause, given: number, limit: number): NoEquilibrium {
  return { kind: "noEquilibrium", cause, given, limit };
}
