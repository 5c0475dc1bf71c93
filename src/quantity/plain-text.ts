/**
 * What may be shown of a text that anybody may have written: a sign that steers a terminal (escape sequences of C0 and C1,
 * backspace, bell) or turns the order of what is read (bidirectional controls) is never passed on.
 */

/** All that steers, but the end of a line and the tab. */
export const STEERING: RegExp = /(?![\n\t])[\p{Cc}\p{Bidi_Control}\u2028\u2029]/gu;

/** Text with each steering sign shown as one that is not: U+FFFD. */
export function plainText(text: string): string {
  return text.replace(STEERING, "\ufffd");
}
