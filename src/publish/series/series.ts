/** What a report of a series is made of. */
import type { Compared, HoldingVerdict, Inquired } from "../../holding/index.ts";
import type { UnitSystem } from "../../quantity/index.ts";
import type { PullCase, PullEvidence } from "../../study/index.ts";

/** All that the report of a series tells. */
export interface SeriesReport {
  readonly title: string;
  /** Who tested, as they want to be named; empty: not said. */
  readonly by: string;
  readonly question: string;
  readonly protocol: string;
  /** The tester's own words, Markdown, in their order. */
  readonly words: readonly string[];
  readonly units: UnitSystem;
  /** Of a book: every pull looked at with what it says, in one order; none where pulls came as a table. */
  readonly cases: readonly PullCase[];
  readonly evidence: readonly PullEvidence[];
  readonly compared: Compared;
  readonly inquired: Inquired;
  readonly verdicts: readonly HoldingVerdict[];
  /** Place in the book's list, or row of the table, of each pull compared. */
  readonly numbers: readonly number[];
  readonly leftOut: readonly { readonly row: number; readonly why: string }[];
  /** The pulls as a table, attached. */
  readonly csv: string;
  /** Names of the files it was made from. */
  readonly files: readonly string[];
  readonly version: string;
  /** The book says that its data are invented. */
  readonly invented?: boolean;
}
