/** What a document is made of before it is laid out on pages. */

/** Words of one kind. */
export interface Run {
  readonly says: string;
  readonly bold?: boolean;
}

/** A cell of a table. */
export interface PdfCell {
  readonly says: string;
  /** Set to the right. */
  readonly number?: boolean;
  /** Names what stands beside or below it. */
  readonly heads?: boolean;
}

/** A piece of a document, in the order it is read. */
export type Block =
  | {
      readonly kind: "heading";
      readonly level: 1 | 2 | 3;
      readonly says: string;
      /** Signs to be found by, set large at the right below a line across the page. */
      readonly code?: string;
    }
  | {
      readonly kind: "paragraph";
      readonly runs: readonly Run[];
      /** Lesser text; a warning, with a bar before it; words of another. */
      readonly as?: "small" | "caution" | "quote";
    }
  | {
      readonly kind: "list";
      readonly items: readonly (readonly Run[])[];
      /** What stands before each: a point, its number, or a box to tick. */
      readonly marks: "points" | "numbers" | "boxes";
    }
  | {
      readonly kind: "table";
      readonly caption: string;
      readonly head: readonly PdfCell[];
      readonly rows: readonly {
        readonly cells: readonly PdfCell[];
        readonly marked: boolean;
        /** Least height, pt; above 0 where its empty cells are to be written in by hand. */
        readonly least: number;
      }[];
    }
  | {
      readonly kind: "figure";
      /** Drawn by the figure room, its colours written out. */
      readonly svg: string;
      /** px */
      readonly width: number;
      readonly height: number;
      readonly describes: string;
      readonly caption: string;
    }
  /** What follows begins a page, or stands together on one as far as it fits. */
  | { readonly kind: "page" }
  | { readonly kind: "together"; readonly blocks: readonly Block[] };

/** A file that lies in a PDF. */
export interface Attachment {
  readonly name: string;
  /** `data:…;base64,…` */
  readonly address: string;
}

/** A document as it is read, whatever page it lies on. */
export interface PdfDocument {
  readonly title: string;
  /** Empty where nobody is named. */
  readonly author: string;
  /** The program that made it. */
  readonly program: string;
  readonly blocks: readonly Block[];
  readonly attached: readonly Attachment[];
}
