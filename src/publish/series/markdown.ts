/**
 * A tester's own words as HTML: the part of Markdown that people write by hand. Headings, paragraphs, lists, quotes, code,
 * emphasis and links to the web; all else is text, markup too. What it makes has no element but these and no attribute but
 * the address of a link.
 */
import { escaped } from "../../figure/index.ts";

/** Level of the least heading of a page that words stand in; theirs begin below it. */
const BELOW = 2;

/** @returns HTML of block elements */
export function markdownHtml(words: string): string {
  const lines = words.replaceAll("\r\n", "\n").split("\n");
  const blocks: string[] = [];
  // However high the tester's own headings begin, they stand right below the page's.
  const highest = Math.min(...lines.map((line) => /^(#{1,6})\s/.exec(line)?.[1]?.length ?? 6));
  let i = 0;
  const take = (matches: (line: string) => boolean): string[] => {
    const taken: string[] = [];
    while (i < lines.length && matches(lines[i]!)) taken.push(lines[i++]!);
    return taken;
  };
  while (i < lines.length) {
    const line = lines[i]!;
    const heading = /^(#{1,6})\s+(.*?)\s*#*$/.exec(line);
    if (line.trim() === "") i++;
    else if (/^```/.test(line)) {
      i++;
      const code = take((one) => !/^```/.test(one));
      i++;
      blocks.push(`<pre><code>${escaped(code.join("\n"))}</code></pre>`);
    } else if (heading !== null) {
      i++;
      const level = Math.min(6, heading[1]!.length - highest + 1 + BELOW);
      blocks.push(`<h${level}>${inline(heading[2]!)}</h${level}>`);
    } else if (/^\s*[-*+]\s+/.test(line)) blocks.push(listOf("ul", take(isBullet), /^\s*[-*+]\s+/));
    else if (/^\s*\d{1,9}[.)]\s+/.test(line)) blocks.push(listOf("ol", take(isNumbered), /^\s*\d{1,9}[.)]\s+/));
    else if (/^>\s?/.test(line)) {
      const quoted = take((one) => /^>/.test(one)).map((one) => one.replace(/^>\s?/, ""));
      blocks.push(`<blockquote><p>${inline(quoted.join(" "))}</p></blockquote>`);
    } else {
      const first = lines[i++]!;
      const rest = take((one) => one.trim() !== "" && !/^(#{1,6}\s|```|>|\s*[-*+]\s|\s*\d{1,9}[.)]\s)/.test(one));
      blocks.push(`<p>${inline([first, ...rest].map((one) => one.trim()).join(" "))}</p>`);
    }
  }
  return `${blocks.join("\n")}\n`;
}

const isBullet = (line: string): boolean => /^\s*[-*+]\s+/.test(line) || /^\s{2,}\S/.test(line);
const isNumbered = (line: string): boolean => /^\s*\d{1,9}[.)]\s+/.test(line) || /^\s{2,}\S/.test(line);

function listOf(kind: "ul" | "ol", lines: readonly string[], mark: RegExp): string {
  const items: string[] = [];
  for (const line of lines) {
    if (mark.test(line)) items.push(line.replace(mark, ""));
    else items.push(`${items.pop() ?? ""} ${line.trim()}`);
  }
  return `<${kind}>${items.map((item) => `<li>${inline(item)}</li>`).join("")}</${kind}>`;
}

/** Code first, so that nothing within it is read; then links, then what stands out. */
function inline(text: string): string {
  return text
    .split(/(`[^`]+`)/)
    .map((part) =>
      part.startsWith("`") && part.length > 2 ? `<code>${escaped(part.slice(1, -1))}</code>` : linked(part),
    )
    .join("");
}

function linked(text: string): string {
  return text
    .split(/(\[[^\]]+\]\(https?:\/\/[^\s()]+\))/)
    .map((part) => {
      const [, words, address] = /^\[([^\]]+)\]\((https?:\/\/[^\s()]+)\)$/.exec(part) ?? [];
      return words === undefined || address === undefined
        ? stressed(part)
        : `<a href="${escaped(address)}" rel="noreferrer">${stressed(words)}</a>`;
    })
    .join("");
}

function stressed(text: string): string {
  return escaped(text)
    .replace(/\*\*(?=\S)(.+?)(?<=\S)\*\*/g, "<strong>$1</strong>")
    .replace(/(?<![*\w])\*(?=\S)([^*]+?)(?<=\S)\*(?![*\w])/g, "<em>$1</em>")
    .replace(/(?<![_\w])_(?=\S)([^_]+?)(?<=\S)_(?![_\w])/g, "<em>$1</em>");
}
