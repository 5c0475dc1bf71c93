/** A page as one HTML file: the built viewer with a tester's content put in as data, which no browser runs. */

import { escaped } from "../../figure/index.ts";
import { InputError, plainText } from "../../quantity/index.ts";
import type { PageContent } from "./content.ts";
import { PAGE_SLOTS } from "./page-slots.ts";

/**
 * @param viewer the built viewer, with its two slots
 * @throws InputError when it is no viewer
 */
export function pageHtml(viewer: string, content: PageContent): string {
  const slots = [PAGE_SLOTS.title, PAGE_SLOTS.content].map((slot) => `<!--${slot}-->`);
  if (slots.some((slot) => viewer.split(slot).length !== 2))
    throw new InputError(
      "viewer",
      "a file without the places of a page's title and content",
      "the built viewer is expected",
    );
  const [before = "", between = "", after = ""] = viewer.split(new RegExp(slots.join("|")));
  return `${before}${escaped(plainText(content.title))}${between}${scriptData(content)}${after}`;
}

/** JSON that ends no script element and opens none, of texts without signs that turn the order of what is read. */
function scriptData(content: PageContent): string {
  return JSON.stringify(content, (_, value: unknown) => (typeof value === "string" ? plainText(value) : value)).replace(
    /[<>&\u2028\u2029]/g,
    (letter) => `\\u${letter.charCodeAt(0).toString(16).padStart(4, "0")}`,
  );
}
