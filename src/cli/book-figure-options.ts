import type { Shown } from "./options.ts";

/** What a figure of what a book keeps is asked with. */
export interface BookFigureOptions extends Shown {
  readonly series?: string;
  readonly site?: string;
  readonly pull?: string;
}
