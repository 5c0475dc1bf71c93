/** A PDF read back by another program than wrote it (pdf.js): its pages, their text, their tags. */

/** A node of a page's tags; `content` where something was drawn. */
export interface Tagged {
  readonly role?: string;
  readonly alt?: string;
  readonly type?: string;
  readonly id?: string;
  readonly children?: readonly Tagged[];
}

export interface PdfPage {
  /** pt */
  readonly width: number;
  readonly height: number;
  readonly lines: readonly string[];
  readonly tags: Tagged;
  /** What was drawn under each tag of the page, by its id. */
  readonly said: ReadonlyMap<string, string>;
}

export interface ReadPdf {
  readonly pages: readonly PdfPage[];
  readonly info: Readonly<Record<string, unknown>>;
  readonly marked: boolean;
}

interface Item {
  readonly type?: string;
  readonly id?: string;
  readonly str?: string;
}

interface Pdf {
  readonly numPages: number;
  getMarkInfo(): Promise<{ readonly Marked: boolean } | null>;
  getMetadata(): Promise<{ readonly info: Readonly<Record<string, unknown>> }>;
  getPage(number: number): Promise<{
    readonly view: readonly [number, number, number, number];
    getTextContent(options: { includeMarkedContent: boolean }): Promise<{ readonly items: readonly Item[] }>;
    getStructTree(): Promise<Tagged>;
  }>;
}

const READER: string = "pdfjs-dist/legacy/build/pdf.mjs";

export async function readPdf(bytes: Uint8Array): Promise<ReadPdf> {
  const { getDocument } = (await import(READER)) as {
    getDocument(options: object): { readonly promise: Promise<Pdf>; destroy(): Promise<void> };
  };
  const loading = getDocument({ data: new Uint8Array(bytes), verbosity: 0 });
  const pdf = await loading.promise;
  const pages: PdfPage[] = [];
  for (let number = 1; number <= pdf.numPages; number++) {
    const page = await pdf.getPage(number);
    const { items } = await page.getTextContent({ includeMarkedContent: true });
    const said = new Map<string, string>();
    const open: string[] = [];
    for (const { type, id, str } of items) {
      if (type?.startsWith("beginMarkedContent")) open.push(id ?? "");
      else if (type === "endMarkedContent") open.pop();
      else if (str !== undefined) {
        const at = open.findLast((one) => one !== "") ?? "";
        said.set(at, `${said.get(at) ?? ""}${str}`);
      }
    }
    pages.push({
      width: page.view[2],
      height: page.view[3],
      lines: items.flatMap(({ str }) => (str === undefined || str.trim() === "" ? [] : [str])),
      tags: await page.getStructTree(),
      said,
    });
  }
  const marked = (await pdf.getMarkInfo())?.Marked === true;
  const { info } = await pdf.getMetadata();
  await loading.destroy();
  return { pages, info, marked };
}

const isDrawn = (tag: Tagged): boolean => tag.type === "content" || (tag.children ?? []).some(isDrawn);

/** Every tag of a page under which something of that page was drawn, outermost first. */
export function tagsOf({ tags }: PdfPage): Tagged[] {
  const all: Tagged[] = [];
  const walk = (tag: Tagged): void => {
    if (tag.role !== undefined && isDrawn(tag)) all.push(tag);
    for (const child of tag.children ?? []) walk(child);
  };
  walk(tags);
  return all;
}
