import { createHash } from "node:crypto";

/**
 * The only inline styles a page of the bench may carry: fixed texts that its libraries put into the page at work,
 * each allowed by its hash, so that any other inline style stays refused. A test holds them to the installed packages.
 */
export const knownStyles: readonly string[] = [
  // react-aria, usePress: how a pressable thing takes touches.
  `@layer {
  [data-react-aria-pressable] {
    touch-action: pan-x pan-y pinch-zoom;
  }
}`,
  // react-aria, usePreventScroll: the page behind an open dialog stays where it is.
  `@layer {
  * {
    overscroll-behavior: contain;
  }
}`,
];

/** How a content security policy names an inline text. */
export function hashOf(text: string): string {
  return `'sha256-${createHash("sha256").update(text, "utf8").digest("base64")}'`;
}
