/**
 * The elements of an XML document as they open and close, from text that comes piece by piece: nothing of the document
 * is kept but the way to where the reader stands. Prefixes of namespaces are left out. Entities a document defines
 * for itself are not expanded, so that a few of them cannot stand for gigabytes.
 */
import { SaxesParser } from "saxes";
import { DEEPEST, InputError } from "../quantity/index.ts";
import { visible } from "./troubles.ts";

/** Longest text of one element that is kept, characters; what is behind is left out. */
const LONGEST_TEXT = 4_096;
/** Longest run without an element that opens or closes, characters: the parser holds it in memory. */
const LONGEST_RUN = 4_000_000;

export interface ElementHandler {
  /** @param path names from the root to this element, itself the last; the same list is used again */
  open(path: readonly string[], attributes: Readonly<Record<string, string>>, line: number): void;
  /** @param text what stands in the element itself, and in none within it */
  close(path: readonly string[], text: string, line: number): void;
}

/** Elements of an XML text as they come, in flat memory. */
export class XmlElements {
  private readonly parser = new SaxesParser();
  private readonly place: string;
  private readonly path: string[] = [];
  private readonly texts: string[] = [];
  private run = 0;

  constructor(place: string, handler: ElementHandler) {
    const { parser, path, texts } = this;
    this.place = place;
    parser.on("error", ({ message }) => {
      const [, line = String(parser.line), what = message] = /^(\d+):\d+: (.*)$/s.exec(message) ?? [];
      // The reference is passed on as it stands.
      if (what === "undefined entity.") return;
      throw this.wrong(`line ${line}: ${visible(what).replace(/\.$/, "").slice(0, 160)}`);
    });
    parser.on("opentag", ({ name, attributes }) => {
      this.run = 0;
      path.push(local(name));
      texts.push("");
      if (path.length > DEEPEST) throw this.wrong(`line ${parser.line}: nested too deeply`);
      const plain = Object.entries(attributes).map(([key, value]) => [local(key), value] as const);
      handler.open(path, Object.fromEntries(plain), parser.line);
    });
    const onText = (text: string) => {
      const last = texts.length - 1;
      if (last >= 0 && texts[last]!.length < LONGEST_TEXT) texts[last] += text.slice(0, LONGEST_TEXT);
    };
    parser.on("text", onText);
    parser.on("cdata", onText);
    parser.on("closetag", () => {
      this.run = 0;
      handler.close(path, texts.pop()!, parser.line);
      path.pop();
    });
  }

  get line(): number {
    return this.parser.line;
  }

  /** @throws InputError naming the line, when it is no XML */
  write(text: string): void {
    // In pieces, so that a long run is met before it is held.
    for (let at = 0; at < text.length; at += 65_536) {
      const piece = text.slice(at, at + 65_536);
      this.run += piece.length;
      this.parser.write(piece);
      if (this.run > LONGEST_RUN + piece.length)
        throw this.wrong(`line ${this.parser.line}: more than ${LONGEST_RUN} characters without an element`);
    }
  }

  /** @throws InputError when the document does not end here */
  close(): void {
    this.parser.close();
  }

  private wrong(what: string): InputError {
    return new InputError(this.place, what, "a whole XML document is expected");
  }
}

const local = (name: string): string => name.slice(name.indexOf(":") + 1);
