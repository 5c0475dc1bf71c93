/** A number as text, in what stands before its decimal sign and the rest: `−12`, `.5 ± 0.3 kN`. Null for what begins with no number. */
export function atDecimal(text: string): readonly [before: string, rest: string] | null {
  const [, before, rest] = /^([−+]?\d+)(.*)$/su.exec(text) ?? [];
  return before === undefined || rest === undefined ? null : [before, rest];
}

/** The room that it needs behind the figures before the decimal sign. */
export const roomBehind = (texts: readonly (string | null | undefined)[]): number =>
  Math.max(0, ...texts.map((text) => atDecimal(text ?? "")?.[1].length ?? 0));

/** The room that a column of texts needs before the decimal sign, in figures; what begins with no number needs none. */
export const roomBefore = (texts: readonly (string | null | undefined)[]): number =>
  Math.max(0, ...texts.map((text) => atDecimal(text ?? "")?.[0].length ?? 0));
