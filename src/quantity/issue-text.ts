/**
 * A schema's message that says what was given as well as what was expected, where the value itself would tell less
 * ("a peak below the mean load"). An issue of a schema holds one text: the two travel in it side by side.
 */
const between = "\u001f";

/** The message of an issue, for `checkShape` to take apart. */
export function issueText(given: string, expected: string): string {
  return `${given}${between}${expected}`;
}

/** What was given and expected, when the message says both. */
export function issueParts(message: string): { given: string; expected: string } | undefined {
  const [given, expected] = message.split(between);
  return expected === undefined ? undefined : { given: given!, expected };
}
