import type { FigureTable } from "../../figure/index.ts";
import type { FigureKindName } from "../../publish/index.ts";

/** What a figure can be made into. */
export interface FigureSource {
  readonly title: string;
  readonly kind: FigureKindName;
  /** What its ± are, where its kind alone does not tell it; a whole sentence. */
  readonly uncertain: string | null;
  readonly table: (() => FigureTable | Promise<FigureTable>) | null;
  /** The drawing as text, where what stands in the page is no drawing of vectors. */
  readonly redrawn: (() => string | Promise<string>) | null;
  /** Made of the book, and not of what stands in the place alone. */
  readonly ofBook: boolean;
}
