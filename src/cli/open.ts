import { existsSync } from "node:fs";
import { homedir } from "node:os";
import { join, resolve } from "node:path";
import { fileURLToPath } from "node:url";
import { Command, Option } from "commander";
import { type Book, type LiveSource, liveSource } from "../book/index.ts";
import { InputError, quoted } from "../quantity/index.ts";
import {
  authorityIn,
  type Bench,
  BooksHere,
  Devices,
  dataFolder,
  devicesFileOf,
  type Encryption,
  lastChosenIn,
  type Opened,
  openBench,
  openInBrowser,
} from "../server/index.ts";
import { addressCode } from "./address-code.ts";
import { openedAt } from "./book-with.ts";
import type { Io } from "./io.ts";
import { answerJson } from "./options.ts";

/** R-O-D-E on a telephone's keys. The same port each time, so that an installed bench finds its book again. */
const PORT = 7633;
const BUILT = fileURLToPath(new URL("../../dist/web", import.meta.url));

interface Options {
  readonly port?: string;
  readonly browser: boolean;
  readonly json?: true;
  /** True, or the one address to open. */
  readonly boatNetwork?: true | string;
  readonly https?: true;
  readonly certificate?: string;
  readonly key?: string;
  readonly app: string;
  readonly live: readonly string[];
  readonly devices?: true;
  readonly withdraw?: string;
}

/** `rodebench open [BOOK]`: the bench in a browser, on one book, until it is stopped. */
export function openCommand(io: Io): Command {
  return new Command("open")
    .argument(
      "[book]",
      "the book; without one that last chosen in the bench, at first the demonstration in your own data folder",
    )
    .option("--port <number>", `port on this computer; ${PORT} when free, 0 for any`)
    .option("--no-browser", "print the address and open no browser")
    .option("--json", "the address as one JSON document")
    .option("--boat-network [address]", "open to devices on the boat's own network, each let in by a code shown here")
    .option("--https", "with --boat-network: encrypted, by this computer's own certificate authority")
    .option("--certificate <file>", "with --boat-network: encrypted, by a certificate of your own (PEM)")
    .option("--key <file>", "the key of --certificate (PEM)")
    .option(
      "--live <source>",
      "an instrument that may be followed on deck: host:port, or the path of a device; again for each",
      (one: string, before: readonly string[]) => [...before, one],
      [],
    )
    .addOption(new Option("--app <folder>", "the built web app").default(BUILT).hideHelp())
    .option("--devices", "list the devices let in to the book, and open nothing")
    .option("--withdraw <device>", "take back a device's key, by its id or its name, and open nothing")
    .action(async (path: string | undefined, options: Options) => {
      const folder = dataFolder({ platform: process.platform, home: homedir(), env: process.env });
      if (options.devices === true || options.withdraw !== undefined) {
        devicesOf(bookAt(path, folder, io), folder, options, io);
        return;
      }
      const port = portFrom(options.port);
      const encryption = await encryptionFrom(options, folder, io);
      const instruments = options.live.map((text) => liveSource(text));
      const app = resolve(io.cwd, options.app);
      if (!existsSync(join(app, "index.html"))) {
        const shown = app === BUILT ? "dist/web" : options.app;
        throw new InputError(shown, "not there", "the built web app is expected; `npm run build` makes it");
      }
      await serveUntilStopped(bookAt(path, folder, io), { folder, app, port, encryption, instruments, options }, io);
    });
}

interface Opening {
  readonly folder: string;
  readonly app: string;
  readonly port: number | undefined;
  readonly encryption: Encryption;
  readonly instruments: readonly LiveSource[];
  readonly options: Options;
}

async function serveUntilStopped(book: Book, opening: Opening, io: Io): Promise<void> {
  const { options, encryption } = opening;
  const fault = (error: unknown): void => {
    io.err(
      `rodebench: a fault of the program: ${error instanceof Error ? (error.stack ?? error.message) : String(error)}\n`,
    );
  };
  const books = new BooksHere(book, {
    dataFolder: opening.folder,
    instruments: opening.instruments,
    now: Date.now,
    fault,
    told: (line) => io.err(`${line}\n`),
  });
  try {
    const bench = await benchOn(books, opening, fault, io);
    books.onTurn((served) => bench.turnTo(served));
    try {
      const boat =
        options.boatNetwork === undefined ? undefined : await openToBoat(bench, options.boatNetwork, encryption);
      tell(bench, book, boat, options.json === true, io);
      if (io.isTerminal && options.browser && options.json !== true) openInBrowser(bench.address);
      const deaf = boat !== undefined && io.isTerminal ? newCodeOnEnter(bench, io) : () => undefined;
      await stopped(io.stop);
      deaf();
    } finally {
      await bench.close();
    }
  } finally {
    await books.close();
  }
}

async function benchOn(
  books: BooksHere,
  { app, port }: Opening,
  fault: (error: unknown) => void,
  io: Io,
): Promise<Bench> {
  const reportPdf = async (html: string, author: string): Promise<Uint8Array> => {
    // Much to load, and seldom asked for.
    const [{ pdfTools }, { pagePdf }] = await Promise.all([import("./figure-tools.ts"), import("./page-pdf.ts")]);
    return pagePdf(html, author, await pdfTools());
  };
  const parts = { ...books.served, builtFolder: app, now: Date.now, fault, reportPdf };
  if (port !== undefined) return openBench({ ...parts, port });
  try {
    return await openBench({ ...parts, port: PORT });
  } catch (error) {
    if (!(error instanceof InputError) || !error.given.includes("in use")) throw error;
    io.err(`port ${PORT} is in use, by another bench perhaps; a free one was taken\n`);
    return openBench({ ...parts, port: 0 });
  }
}

function openToBoat(bench: Bench, asked: true | string, encryption: Encryption): Promise<Opened> {
  const port = Number(new URL(bench.address).port);
  return bench.openToBoatNetwork({ encryption, port, ...(asked === true ? {} : { address: asked }) });
}

function tell(bench: Bench, book: Book, boat: Opened | undefined, json: boolean, io: Io): void {
  if (json) {
    answerJson(io, {
      format: "rodebench/opened@1",
      address: bench.address,
      book: book.path,
      ...(boat ? { boatNetwork: boat } : {}),
    });
    return;
  }
  io.out(`${bench.address}\n`);
  io.err(`the bench is open on ${book.path}; ctrl-c closes it\n`);
  if (boat === undefined) return;
  io.err(`open to the boat's network at ${boat.addresses.join(" and ")}\n`);
  // A camera reads it from the screen.
  if (io.isTerminal) for (const address of boat.addresses) io.err(`${address}\n${addressCode(address)}`);
  for (const line of boat.exposes) io.err(`  ${line}\n`);
  if (boat.fingerprint !== undefined)
    io.err(`  fingerprint (SHA-256) of this computer's authority: ${boat.fingerprint}\n`);
  io.err(codeLine(boat.code, io.isTerminal));
}

function codeLine(code: string, more: boolean): string {
  const spaced = `${code.slice(0, 4)} ${code.slice(4)}`;
  return `code for one device, for ten minutes: ${spaced}${more ? "  (enter shows a new one)" : ""}\n`;
}

/** Whoever sits at the terminal gets the next device's code by pressing enter. */
function newCodeOnEnter(bench: Bench, io: Io): () => void {
  const listen = (): void => io.err(codeLine(bench.newCode().code, true));
  process.stdin.on("data", listen);
  return () => {
    process.stdin.off("data", listen);
    process.stdin.pause();
  };
}

/** Lists the devices let in to a book, or withdraws one; a bench running on it heeds that from the next request on. */
function devicesOf(book: Book, folder: string, options: Options, io: Io): void {
  const devices = new Devices(devicesFileOf(book, folder), Date.now);
  book.close();
  if (options.withdraw !== undefined) {
    const asked = options.withdraw;
    const known = devices.list().filter(({ id, name }) => id === asked || name === asked);
    if (known.length === 0)
      throw new InputError("--withdraw", quoted(asked), "the id or the name of a device that is let in");
    for (const { id } of known) devices.withdraw(id);
  }
  const list = devices.list().map(({ id, name, addedAt, seenAt }) => ({
    id,
    name,
    addedAt: new Date(addedAt).toISOString(),
    seenAt: new Date(seenAt).toISOString(),
  }));
  if (options.json === true) answerJson(io, { format: "rodebench/devices-listed@1", devices: list });
  else if (list.length === 0) io.out("no device is let in\n");
  else
    for (const { id, name, addedAt, seenAt } of list)
      io.out(`${id}  ${name}  let in ${addedAt}  last seen ${seenAt}\n`);
}

const bookAt = (path: string | undefined, folder: string, io: Io): Book =>
  path === undefined ? lastChosenIn(folder) : openedAt(path, io);

function portFrom(text: string | undefined): number | undefined {
  if (text === undefined) return undefined;
  if (!/^\d{1,5}$/.test(text) || Number(text) > 65_535) {
    throw new InputError("--port", quoted(text), "a port from 0 to 65535 is expected");
  }
  return Number(text);
}

async function encryptionFrom(options: Options, folder: string, io: Io): Promise<Encryption> {
  const { boatNetwork, https, certificate, key } = options;
  const asked =
    https === true ? "--https" : certificate !== undefined ? "--certificate" : key !== undefined ? "--key" : undefined;
  if (asked === undefined) return { kind: "none" };
  if (boatNetwork === undefined) throw new InputError(asked, "without --boat-network", "both are expected, or none");
  if (https === true) {
    if (certificate !== undefined || key !== undefined) {
      throw new InputError("--https", "with --certificate", "one or the other is expected");
    }
    return { kind: "authority", authority: authorityIn(folder, Date.now()) };
  }
  if (certificate === undefined || key === undefined) {
    throw new InputError(asked, "alone", "--certificate and --key are expected together");
  }
  return { kind: "given", certificate: { cert: await io.read(certificate), key: await io.read(key) } };
}

function stopped(stop: AbortSignal): Promise<void> {
  return new Promise((done) => {
    if (stop.aborted) done();
    else stop.addEventListener("abort", () => done(), { once: true });
  });
}
