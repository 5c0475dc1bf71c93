/** In the worker: page, report and data package of a series, from one inquiry into its table. */
import Papa from "papaparse";
import { type DrawChains, readPullsTable, sampleOneChain } from "../../holding/index.ts";
import {
  answersOf,
  dataPackage,
  LICENCES,
  type PageContent,
  type Private,
  pageContent,
  pageHolding,
  type RawLog,
  seriesReport,
  setupsOfPulls,
  type UsualInquiry,
  usualInquiry,
  zipOf,
} from "../../publish/index.ts";
import { InputError, type UnitSystem } from "../../quantity/index.ts";
import { type Boat, readBoat } from "../../sea/index.ts";
import { comparablePulls, type LogVerdict, pullCases, type StudyRecords } from "../../study/index.ts";
import { sayNotComparable } from "../../words/index.ts";
import type { Records } from "../days/records.ts";

export interface OutgoingAsked {
  readonly records: StudyRecords & Pick<Records, "series" | "note" | "boat">;
  readonly logs: ReadonlyMap<string, LogVerdict>;
  /** Logs that go into the data package, reading by reading. */
  readonly rawLogs: readonly RawLog[];
  /** Id of a series; empty: all pulls. */
  readonly series: string;
  readonly title: string;
  readonly by: string;
  readonly note: string;
  readonly words: string;
  readonly licence: string;
  readonly chosen: readonly Private[];
  readonly units: UnitSystem;
  readonly program: string;
  /** The book says that its data are invented. */
  readonly invented: boolean;
}

export interface Outgoing {
  readonly title: string;
  /** Null where the draws bear no conclusion and no pull has a rig: then a page has nothing to show. */
  readonly page: PageContent | null;
  readonly report: string;
  readonly archive: Uint8Array<ArrayBuffer>;
  readonly files: readonly { readonly path: string; readonly bytes: number }[];
  /** Channels left out of the logs, as they tell places to the metre. */
  readonly channelsLeftOut: readonly string[];
  readonly pulls: number;
  readonly leftOut: number;
}

const SEED = 1;

/**
 * @param progress called with the share done, 0 to 1
 * @throws InputError when no pull of the series can be compared
 */
export async function outgoing(
  asked: OutgoingAsked,
  progress: (share: number) => void | Promise<void>,
): Promise<Outgoing> {
  const { records, by, units, program, chosen } = asked;
  const series = records.series.find(({ id }) => id === asked.series);
  const shown = records.pull.filter((pull) => !pull.hidden && (asked.series === "" || pull.series === asked.series));
  const cases = pullCases(records, shown, asked.logs);
  const { pulls, evidence, leftOut } = comparablePulls(cases);
  if (pulls.length === 0)
    throw new InputError(
      "series",
      `${shown.length} pulls, none of which says what its anchor held`,
      "pulls with a result are expected",
    );
  const title = asked.title.trim() === "" ? (series?.name ?? "Anchors compared") : asked.title;
  let csv = "";
  let inquiry: UsualInquiry | undefined;
  let rows: readonly number[] = [];
  const made = await dataPackage({
    about: {
      title,
      description: series?.question ?? "",
      by,
      citation: [by, title].filter((part) => part !== "").join(", "),
      licence: LICENCES[asked.licence] ?? LICENCES["CC-BY-4.0"]!,
      program,
      ...(asked.invented ? { invented: true } : {}),
    },
    pulls: cases.map((about, i) => ({ about, evidence: evidence[i]! })),
    sites: records.site,
    chosen,
    logs: asked.rawLogs,
    seed: SEED,
    async answersOf(text) {
      csv = text;
      const table = readPullsTable(
        Papa.parse<string[]>(text, { delimiter: ",", skipEmptyLines: true }).data,
        "pulls.csv",
      );
      ({ rows } = table);
      inquiry = await usualInquiry(table.pulls, SEED, drawing(progress));
      return answersOf(table, inquiry);
    },
    sha256: async (bytes) => hexadecimal(await crypto.subtle.digest("SHA-256", new Uint8Array(bytes))),
  });
  const { inquired } = inquiry!;
  const setups = setupsOfPulls(evidence);
  const holding = inquired.kind === "concluded" ? pageHolding(inquired, SEED) : null;
  const notes = series === undefined ? [] : records.note.filter(({ about, hidden }) => about === series.id && !hidden);
  return {
    title,
    page:
      setups.length === 0 && holding === null
        ? null
        : pageContent({
            ...{ title, by, note: asked.note, units, setups, boats: boatsOf(records.boat), holding, program },
            ...(asked.invented ? { invented: true } : {}),
          }),
    report: seriesReport({
      title,
      by,
      question: series?.question ?? "",
      protocol: series?.protocol ?? "",
      words: [...notes.map(({ text }) => text ?? ""), asked.words].filter((text) => text.trim() !== ""),
      units,
      cases,
      evidence,
      ...inquiry!,
      // Rows of the table begin below its header.
      numbers: rows.map((row) => row - 1),
      leftOut: leftOut.map(({ row, cause }) => ({ row, why: sayNotComparable(cause) })),
      csv,
      files: ["the book"],
      version: program,
      invented: asked.invented,
    }),
    archive: zipOf(made.files),
    files: [...made.files].map(([path, bytes]) => ({ path, bytes: bytes.length })),
    channelsLeftOut: made.channelsLeftOut,
    pulls: made.rows,
    leftOut: made.leftOut,
  };
}

/** Both laws, and the better one with priors half and twice as wide: four models. */
const MODELS = 4;

function drawing(progress: (share: number) => void | Promise<void>): DrawChains {
  let models = 0;
  return async (input, plan) => {
    const whole = plan.warmUp + plan.draws;
    const chains = [];
    for (let chain = 0; chain < plan.chains; chain++)
      chains.push(
        sampleOneChain(input, plan, chain, (done) => {
          if (done % 100 === 0) void progress(Math.min(0.99, (models + (chain + done / whole) / plan.chains) / MODELS));
          return true;
        }),
      );
    models++;
    return chains;
  };
}

/** Boats whose file can be read; one that cannot is of no use to a viewer. */
function boatsOf(boats: Records["boat"]): Boat[] {
  return boats.flatMap(({ file, hidden }) => {
    if (file === null || hidden) return [];
    try {
      return [readBoat(file, "boat")];
    } catch (error) {
      if (error instanceof InputError) return [];
      throw error;
    }
  });
}

const hexadecimal = (bytes: ArrayBuffer): string =>
  [...new Uint8Array(bytes)].map((byte) => byte.toString(16).padStart(2, "0")).join("");
