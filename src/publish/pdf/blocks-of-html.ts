/**
 * A page of ours as the blocks of a document. It knows what `src/publish/report/page.ts`, the tester's Markdown and the
 * field sheet make, all of it well-formed; nothing else is read.
 */
import { SaxesParser } from "saxes";
import { flat } from "../../figure/index.ts";
import type { Attachment, Block, PdfCell, PdfDocument, Run } from "./blocks.ts";

interface Node {
  readonly name: string;
  readonly attributes: Readonly<Record<string, string>>;
  readonly children: (Node | string)[];
  /** Of a drawing, as it stood. */
  svg?: string;
}

/** @param html a whole page of ours; its drawings in the colours of light paper */
export function documentOfHtml(
  html: string,
  about: { readonly author: string; readonly program: string },
): PdfDocument {
  const body = html.slice(html.indexOf("<body>") + "<body>".length, html.lastIndexOf("</body>"));
  const tree = treeOf(`<body>${body.replace(/<(br|hr)>/g, "<$1/>")}</body>`);
  const title = /<title>([\s\S]*?)<\/title>/.exec(html)?.[1] ?? "";
  const attached: Attachment[] = [];
  return {
    title: saidIn(treeOf(`<title>${title}</title>`)),
    ...about,
    blocks: blocksIn(tree, attached),
    attached,
  };
}

function treeOf(text: string): Node {
  const parser = new SaxesParser();
  const root: Node = { name: "", attributes: {}, children: [] };
  const open: Node[] = [root];
  const starts: number[] = [];
  parser.on("error", (error) => {
    throw new RangeError(`no page of ours: ${error.message}`);
  });
  parser.on("opentag", ({ name, attributes }) => {
    const node: Node = { name, attributes: attributes as Record<string, string>, children: [] };
    open.at(-1)!.children.push(node);
    open.push(node);
    starts.push(text.lastIndexOf(`<${name}`, parser.position - 1));
  });
  parser.on("text", (said) => void open.at(-1)!.children.push(said));
  parser.on("closetag", ({ name }) => {
    const [node, start] = [open.pop()!, starts.pop()!];
    if (name === "svg") node.svg = text.slice(start, parser.position);
  });
  parser.write(text).close();
  return root.children[0] as Node;
}

const nodesIn = ({ children }: Node): Node[] => children.filter((child): child is Node => typeof child !== "string");
const classOf = ({ attributes }: Node): string => attributes.class ?? "";

/** All text of a node, its blanks as one. */
function saidIn(node: Node): string {
  return raw(node).replace(/\s+/g, " ").trim();
}

function raw(node: Node): string {
  return node.children
    .map((child) => (typeof child === "string" ? child : child.name === "br" ? "\n" : raw(child)))
    .join("");
}

function find(node: Node, name: string): Node | undefined {
  for (const child of nodesIn(node)) {
    const found = child.name === name ? child : find(child, name);
    if (found !== undefined) return found;
  }
  return undefined;
}

function all(node: Node, name: string): Node[] {
  return nodesIn(node).flatMap((child) => (child.name === name ? [child] : all(child, name)));
}

function blocksIn(node: Node, attached: Attachment[]): Block[] {
  return nodesIn(node).flatMap((child) => blocksOf(child, attached));
}

const LEVELS: Readonly<Record<string, 1 | 2 | 3>> = { h1: 1, h2: 2, h3: 3, h4: 3, h5: 3, h6: 3 };

function blocksOf(node: Node, attached: Attachment[]): Block[] {
  const { name } = node;
  const level = LEVELS[name];
  if (level !== undefined) return [headingOf(node, level)];
  switch (name) {
    case "p": {
      const runs = runsIn(node, attached);
      const as = { caution: "caution", under: "small" }[classOf(node)] as "caution" | "small" | undefined;
      return runs.length === 0 ? [] : [{ kind: "paragraph", runs, ...(as === undefined ? {} : { as }) }];
    }
    case "blockquote":
      return nodesIn(node).map((one) => ({ kind: "paragraph", runs: runsIn(one, attached), as: "quote" }));
    case "pre":
      return [{ kind: "paragraph", runs: [{ says: raw(node) }], as: "quote" }];
    case "ul":
    case "ol":
      return [listOf(node, attached)];
    case "dl":
      return [{ kind: "list", marks: "points", items: pairsIn(node) }];
    case "table":
      return [tableOf(node, 0)];
    case "figure":
      return figureOf(node);
    case "span":
      return [{ kind: "paragraph", runs: runsIn(node, attached, true) }];
    case "footer":
      return blocksIn(node, attached).map((block) => (block.kind === "paragraph" ? { ...block, as: "small" } : block));
    case "article":
      return [{ kind: "together", blocks: blocksIn(node, attached) }];
    default:
      if (classOf(node) === "blank") return all(node, "table").map((one) => tableOf(one, BLANK_ROW));
      return /(^| )pull( |$)/.test(classOf(node))
        ? [{ kind: "together", blocks: blocksIn(node, attached) }]
        : blocksIn(node, attached);
  }
}

/** The code in a heading stands apart from what it says. */
function headingOf(node: Node, level: 1 | 2 | 3): Block {
  const code = nodesIn(node).find((one) => classOf(one) === "code");
  const says = saidIn({ ...node, children: node.children.filter((one) => one !== code) });
  return { kind: "heading", level, says, ...(code === undefined ? {} : { code: saidIn(code) }) };
}

/** A list to tick has its boxes in its words. */
function listOf(node: Node, attached: Attachment[]): Block {
  const items = nodesIn(node).map((item) => runsIn(item, attached));
  if (classOf(node) !== "check") return { kind: "list", marks: node.name === "ol" ? "numbers" : "points", items };
  const unboxed = items.map((runs) =>
    runs.map((run, i) => (i === 0 ? { ...run, says: run.says.replace(/^\W+/, "") } : run)),
  );
  return { kind: "list", marks: "boxes", items: unboxed };
}

/** Words with what stands out; a link to the web has its address after it, one to data is a file of the document. */
function runsIn(node: Node, attached: Attachment[], bold = false): Run[] {
  const runs = node.children.flatMap((child): Run[] => {
    if (typeof child === "string") return [{ says: child.replace(/\s+/g, " "), bold }];
    if (child.name === "br") return [{ says: "\n", bold }];
    const inside = runsIn(child, attached, bold || child.name === "strong" || child.name === "th");
    const address = child.attributes.href ?? "";
    if (child.name !== "a") return inside;
    const file = child.attributes.download;
    if (file !== undefined && address.startsWith("data:")) {
      attached.push({ name: file, address });
      return inside;
    }
    return /^https?:/.test(address) ? [...inside, { says: ` (${address})`, bold }] : inside;
  });
  return runs.filter(({ says }) => says !== "");
}

function pairsIn(node: Node): Run[][] {
  const [names, values] = [all(node, "dt"), all(node, "dd")];
  return names.map((name, i) => {
    const [value, ...rest] = [values[i]].flatMap((one) =>
      one === undefined ? [] : one.children.map((child) => (typeof child === "string" ? child : ` ${saidIn(child)}`)),
    );
    return [
      { says: `${saidIn(name)}: ` },
      { says: `${value ?? ""}${rest[0] ?? ""}`.replace(/\s+/g, " "), bold: true },
      ...(rest.length > 1 ? [{ says: `,${rest.slice(1).join(",")}` }] : []),
    ];
  });
}

/** Height of a row to be written in by hand, pt. */
const BLANK_ROW = 24;

function tableOf(node: Node, least: number): Block {
  const cells = (row: Node, heads: boolean): PdfCell[] =>
    nodesIn(row).map((cell) => ({
      says: saidIn(cell),
      number: classOf(cell).split(" ").includes("number"),
      heads: heads || cell.name === "th",
    }));
  const caption = find(node, "caption");
  const head = find(node, "thead");
  const rows = all(find(node, "tbody") ?? node, "tr");
  return {
    kind: "table",
    caption: caption === undefined ? "" : saidIn(caption),
    head: head === undefined ? [] : nodesIn(head).flatMap((row) => cells(row, true)),
    rows: rows.map((row) => ({ cells: cells(row, false), marked: classOf(row) === "marked", least })),
  };
}

function figureOf(node: Node): Block[] {
  const drawing = find(node, "svg");
  if (drawing?.svg === undefined) return [];
  const caption = find(node, "figcaption");
  const part = (name: string): string => {
    const found = find(drawing, name);
    return found === undefined ? "" : saidIn(found);
  };
  return [
    {
      kind: "figure",
      svg: flat(drawing.svg),
      width: Number(drawing.attributes.width) || 680,
      height: Number(drawing.attributes.height) || 300,
      describes: [part("title"), part("desc")].filter((one) => one !== "").join(". "),
      caption: caption === undefined ? "" : saidIn(caption),
    },
  ];
}
