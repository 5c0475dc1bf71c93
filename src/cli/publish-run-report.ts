import { reductionReport } from "../publish/index.ts";
import { InputError, quoted } from "../quantity/index.ts";
import { CAUTION } from "../words/index.ts";
import type { Io } from "./io.ts";
import { reducedRun } from "./reduced-run.ts";
import type { ReportMade, ReportOptions } from "./report-made.ts";
import { programVersion } from "./version.ts";

/** A run on land set against theory, as a report. @throws InputError for what is told of pulls only */
export async function reportOfRun(
  path: string,
  { units, series, words, by }: ReportOptions,
  io: Io,
): Promise<ReportMade> {
  for (const [name, given] of Object.entries({ "--series": series, "--words": words, "--by": by }))
    if (given !== undefined)
      throw new InputError(name, quoted(given), "pulls are expected beside it, and this is a run");
  const { run, rig, files, reduced, verdicts } = await reducedRun(path, units, io);
  const html = reductionReport({
    run,
    rig,
    reduced,
    verdicts,
    units,
    files,
    version: programVersion(),
    caution: CAUTION,
  });
  return { html, title: run.name, pulls: 0 };
}
