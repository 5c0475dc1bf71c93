import { existsSync } from "node:fs";
import { homedir } from "node:os";
import { join, resolve } from "node:path";
import { fileURLToPath } from "node:url";
import { Command, Option } from "commander";
import {
  type Book,
  createDemoBook,
  type LiveSource,
  liveSource,
  makeFolders,
  openBook,
  takeInLeft,
} from "../book/index.ts";
import { InputError, quoted } from "../quantity/index.ts";
import { isId } from "../record/index.ts";
import {
  authorityIn,
  type Bench,
  type BookTopics,
  bookTopics,
  Devices,
  dataFolder,
  type Encryption,
  type Opened,
  openBench,
  openInBrowser,
} from "../server/index.ts";
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
    .argument("[book]", "the book; without one, the embedded demonstration book in your own data folder")
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
      const book = bookAt(path, folder, io);
      try {
        await serveUntilStopped(book, { folder, app, port, encryption, instruments, options }, io);
      } finally {
        book.close();
      }
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
  for (const notice of [...book.notices, ...takeInLeft(book)]) io.err(`${notice}\n`);
  const fault = (error: unknown): void => {
    io.err(
      `rodebench: a fault of the program: ${error instanceof Error ? (error.stack ?? error.message) : String(error)}\n`,
    );
  };
  const sentFolder = join(opening.folder, `sent-${ownId(book)}`);
  const { topics, stop } = bookTopics(book, { sentFolder, instruments: opening.instruments, now: Date.now, fault });
  const bench = await benchOn(devicesFile(book, opening.folder), opening, topics, fault, io);
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
    await stop();
  }
}

async function benchOn(
  devicesFile: string,
  { app, port }: Opening,
  topics: BookTopics["topics"],
  fault: (error: unknown) => void,
  io: Io,
): Promise<Bench> {
  const parts = { topics, builtFolder: app, devicesFile, now: Date.now, fault };
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
  const devices = new Devices(devicesFile(book, folder), Date.now);
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

/** Keys belong to one book: a device let in to one does not see another. */
function devicesFile(book: Book, folder: string): string {
  return join(folder, `devices-${ownId(book)}.json`);
}

/** What tells this book from others in the names of files kept for it: nothing but an id becomes part of a path. */
function ownId(book: Book): string {
  const id = book.context.device;
  if (!isId(id)) throw new InputError(book.path, "a book whose own id is none", "a book that the program made");
  return id;
}

function bookAt(path: string | undefined, folder: string, io: Io): Book {
  return path === undefined ? demoBook(folder) : openedAt(path, io);
}

function demoBook(folder: string): Book {
  const path = join(folder, "demo.book");
  if (existsSync(path)) return openBook(path, { who: "this computer" });
  try {
    makeFolders(folder, 0o700);
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    throw new InputError(
      folder,
      `the folder for your own data cannot be made (${code ?? "unknown cause"})`,
      "a home that may be written is expected, or a book of your own: rodebench open BOOK",
    );
  }
  return createDemoBook(path, { who: "this computer" });
}

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
