/** Pieces of a page as text. What a user wrote goes through `escaped`; everything else here is markup already. */
import { escaped } from "../../figure/index.ts";
import { plainText } from "../../quantity/index.ts";

/** A cell: its text, and whether it is a number, set to the right. */
export interface Cell {
  readonly says: string;
  readonly number?: boolean;
}

export function paragraph(says: string): string {
  return `<p>${escaped(says)}</p>\n`;
}

export function section(heading: string, ...inside: readonly string[]): string {
  return `<section>\n<h2>${escaped(heading)}</h2>\n${inside.join("")}</section>\n`;
}

export function list(items: readonly string[]): string {
  return `<ul>\n${items.map((item) => `<li>${escaped(item)}</li>\n`).join("")}</ul>\n`;
}

/**
 * A table that scrolls by itself on a narrow screen. `marked` rows are set off.
 * @param named what a screen reader calls it, where a page has several of one caption
 */
export function table(
  caption: string,
  head: readonly Cell[],
  rows: readonly { readonly cells: readonly Cell[]; readonly marked?: boolean }[],
  named = caption,
): string {
  const cell = (name: "td" | "th", { says, number }: Cell, scope?: "col" | "row") =>
    `<${name}${scope === undefined ? "" : ` scope="${scope}"`}${number ? ' class="number"' : ""}>${escaped(says)}</${name}>`;
  return `<div class="wide" role="region" tabindex="0" aria-label="${escaped(named)}"><table>
<caption>${escaped(caption)}</caption>
<thead><tr>${head.map((one) => cell("th", one, "col")).join("")}</tr></thead>
<tbody>
${rows
  .map(
    ({ cells, marked }) =>
      `<tr${marked ? ' class="marked"' : ""}>${cells.map((one, i) => (i === 0 ? cell("th", one, "row") : cell("td", one))).join("")}</tr>`,
  )
  .join("\n")}
</tbody>
</table></div>
`;
}

/** @param svg drawn by the figure room, which has escaped what it was given */
export function figure(svg: string, caption: string): string {
  return `<figure><div class="wide" role="group" tabindex="0" aria-label="${escaped("figure, scrolls sideways on a narrow screen")}">${svg}</div>\n<figcaption>${escaped(caption)}</figcaption></figure>\n`;
}

/** A whole page that asks nothing of the network; a sign that turns the order of what is read is in none of its texts. */
export function page(title: string, style: string, body: string): string {
  return plainText(`<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'; img-src data:; base-uri 'none'; form-action 'none'">
<meta name="color-scheme" content="light dark">
<title>${escaped(title)}</title>
<style>
${style}
</style>
</head>
<body>
${body}</body>
</html>
`);
}
