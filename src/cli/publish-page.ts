import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { gzipSync } from "node:zlib";
import { Command, Option } from "commander";
import {
  type PageContent,
  type PageHolding,
  pageContent,
  pageHolding,
  pageHtml,
  type Setup,
  setupsOfPulls,
  usualInquiry,
} from "../publish/index.ts";
import { formatQuantity, InputError, quoted, significant } from "../quantity/index.ts";
import type { Ports } from "../record/index.ts";
import { readBoat } from "../sea/index.ts";
import { chainsOf } from "./chains.ts";
import type { PullsRead } from "./compare-input.ts";
import { NoAnswer } from "./exit.ts";
import type { Io } from "./io.ts";
import { answerJson, ENDS, placeOf, positive, rigAt, type Shown, seedFrom, shown } from "./options.ts";
import { programVersion } from "./version.ts";

interface Options extends Shown {
  readonly to?: string;
  readonly rig?: string[];
  readonly pull?: string[];
  readonly at: "anchor" | "bow" | "horizontal";
  readonly boat?: string[];
  readonly series?: string;
  readonly title?: string;
  readonly by?: string;
  readonly note?: string;
  readonly seed: string;
  readonly app: string;
}

/** The built bench, the viewer's page among it. */
const BUILT = fileURLToPath(new URL("../../dist/web", import.meta.url));
const VIEWER = "viewer-page.html";

const gathered = (text: string, before: string[] | undefined): string[] => [...(before ?? []), text];

/** `rodebench publish page`: one file that computes for a viewer's own boat. */
export function publishPageCommand(io: Io, ports: Ports): Command {
  return shown(
    new Command("page")
      .description("one HTML file that computes what a pull stands for on a viewer's own boat, in their water")
      .argument(
        "[pulls]",
        "book, or table of pulls (CSV): with it the chance of holding, and of a book the rigs pulled on",
      )
      .option("--to <file>", "the page to write; without it, what it would hold")
      .option("--rig <file>", "rig of a pull shown; may be given again, each with its --pull", gathered)
      .option("--pull <load>", "load of that pull; may be given again", gathered)
      .addOption(new Option("--at <end>", "end at which those loads were read").choices(ENDS).default("bow"))
      .option("--series <name>", "of a book, the pulls of one series")
      .option("--boat <file>", "a boat offered beside the viewer's own; may be given again", gathered)
      .option("--title <text>", "what the page is called")
      .option("--by <text>", "who tested, as they want to be named")
      .option("--note <text>", "what you want to say of it")
      .option("--seed <number>", "seed of the draws", "1")
      .addOption(new Option("--app <folder>", "the built web app").default(BUILT).hideHelp()),
  ).action(async (path: string | undefined, options: Options) => {
    const seed = seedFrom(options.seed);
    const given = await givenSetups(io, options);
    const boats = [];
    for (const file of options.boat ?? []) boats.push(readBoat(await io.read(file), placeOf(file)));
    const read =
      path === undefined ? undefined : await (await import("./compare-input.ts")).pullsAt(path, io, ports, options);
    if (path === undefined && options.series !== undefined)
      throw new InputError("--series", quoted(options.series), "a book is expected beside it");
    const setups = given.length > 0 || read?.evidence === undefined ? given : setupsOfPulls(read.evidence);
    if (setups.length === 0 && read === undefined)
      throw new InputError("publish page", "nothing to show", "pulls, or --rig with --pull, are expected");
    const holding = read === undefined ? null : await holdingOf(read, seed, io);
    const content = pageContent({
      title: options.title ?? setups[0]?.name ?? "Anchors compared",
      by: options.by ?? "",
      note: options.note ?? "",
      units: options.units,
      setups,
      boats,
      holding,
      program: programVersion(),
      ...(read?.invented === true ? { invented: true } : {}),
    });
    const written = options.to === undefined ? undefined : await write(options.to, content, options, io);
    if (options.json) answerJson(io, document(content, options.to, written));
    else io.out(text(content, options, written));
  });
}

async function givenSetups(io: Io, { rig = [], pull = [], at }: Options): Promise<Setup[]> {
  if (rig.length !== pull.length)
    throw new InputError("--pull", `${pull.length} for ${rig.length} of --rig`, "a --pull for each --rig is expected");
  const setups: Setup[] = [];
  for (const [i, file] of rig.entries()) {
    const read = await rigAt(file, io);
    setups.push({ name: read.name, rig: read, load: positive(pull[i]!, "force", "--pull", "a load above zero"), at });
  }
  return setups;
}

async function holdingOf(read: PullsRead, seed: number, io: Io): Promise<PageHolding> {
  const { inquired } = await usualInquiry(read.pulls, seed, chainsOf(io));
  if (inquired.kind !== "concluded") {
    const why = {
      unsound: "the draws do not bear a conclusion",
      stopped: "stopped",
      noPulls: "no pull can be compared",
    };
    throw new NoAnswer(`publish page: ${why[inquired.kind]}; more pulls, or a page of rigs alone, would give one`);
  }
  return pageHolding(inquired, seed);
}

interface Written {
  readonly bytes: number;
  readonly packed: number;
}

async function write(file: string, content: PageContent, { app }: Options, io: Io): Promise<Written> {
  if (file === "-" || file === "")
    throw new InputError("--to", quoted(file), "the path of a file to write is expected");
  let viewer: string;
  try {
    viewer = await io.read(join(app, VIEWER));
  } catch {
    throw new InputError(join(app, VIEWER), "no such file", "the built bench is expected: npm run build makes it");
  }
  const page = Buffer.from(pageHtml(viewer, content));
  await io.write(file, page);
  return { bytes: page.length, packed: gzipSync(page).length };
}

function document(content: PageContent, to: string | undefined, written: Written | undefined): object {
  const { title, by, setups, boats, holding } = content;
  return {
    format: "rodebench/page-published@1",
    file: to ?? null,
    ...(written === undefined ? {} : { bytes: written.bytes, gzip_bytes: written.packed }),
    title,
    by,
    setups: setups.map(({ name, load, at }) => ({ name, load_N: load, at })),
    boats: boats.map(({ name }) => name),
    holding:
      holding === null
        ? null
        : {
            pulls: holding.pulls,
            law: holding.draws.law,
            draws: holding.draws.length,
            anchors: holding.anchors.map(({ anchor, mass, pulls, heldOn }) => ({
              anchor,
              mass_kg: mass ?? null,
              pulls,
              heldOn,
            })),
            angle: holding.hasAngle,
            mass: holding.hasMass,
            seabeds: holding.draws.seabeds,
          },
  };
}

function text(content: PageContent, { to, units }: Options, written: Written | undefined): string {
  const { title, setups, boats, holding } = content;
  const kilobytes = (bytes: number): string => `${significant(bytes / 1000, 3)} kB`;
  const head =
    written === undefined
      ? `${title}: what the page would hold; --to FILE writes it`
      : `${to}: ${title}, ${kilobytes(written.bytes)}, ${kilobytes(written.packed)} compressed`;
  const lines = [
    ...setups.map(
      ({ name, load, at }) => `pull     ${name}: ${formatQuantity(load, "force", { system: units })} at the ${at}`,
    ),
    ...boats.map(({ name }) => `boat     ${name}`),
    ...(holding === null
      ? ["holding  none: no pulls were given"]
      : [
          `holding  ${holding.draws.length} draws (${holding.draws.law}) from ${holding.pulls} pulls; no site, day or person is among them`,
          ...holding.anchors.map(
            ({ anchor, mass, pulls, heldOn }) =>
              `anchor   ${anchor}${mass === undefined ? "" : `, ${formatQuantity(mass, "mass", { system: units, digits: 3 })}`}: ${pulls} pulls, ${heldOn} ended while it held`,
          ),
        ]),
  ];
  return `${[head, ...lines].join("\n")}\n`;
}
