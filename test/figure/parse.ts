/** Reads drawings back, so that tests ask what is on the page, not how it was written. */
import { XMLParser, XMLValidator } from "fast-xml-parser";

export interface Element {
  readonly name: string;
  readonly attributes: Readonly<Record<string, string>>;
  readonly children: readonly Element[];
  /** Text directly inside. */
  readonly text: string;
}

type Raw = Record<string, unknown>;

export function parse(svg: string): Element {
  const valid = XMLValidator.validate(svg);
  if (valid !== true) throw new Error(`not XML: ${JSON.stringify(valid.err)}`);
  const parsed = new XMLParser({
    preserveOrder: true,
    ignoreAttributes: false,
    attributeNamePrefix: "",
    parseTagValue: false,
    parseAttributeValue: false,
    trimValues: false,
  }).parse(svg) as Raw[];
  return elements(parsed)[0]!;
}

function elements(raw: readonly Raw[]): Element[] {
  return raw.flatMap((node) => {
    const name = Object.keys(node).find((key) => key !== ":@" && key !== "#text");
    if (name === undefined) return [];
    const inside = node[name] as Raw[];
    return [
      {
        name,
        attributes: (node[":@"] ?? {}) as Record<string, string>,
        children: elements(inside),
        text: inside.map((child) => String(child["#text"] ?? "")).join(""),
      },
    ];
  });
}

export function all(root: Element, name?: string): Element[] {
  return [root, ...root.children.flatMap((child) => all(child))].filter(
    (element) => name === undefined || element.name === name,
  );
}

/** Every line of text on the page. */
export const texts = (root: Element) => all(root, "text").map((element) => element.text);

/** The places a path goes through. */
export function places(d: string): [number, number][] {
  return [...d.matchAll(/[ML](-?[\d.]+) (-?[\d.]+)/g)].map((match) => [Number(match[1]), Number(match[2])]);
}
