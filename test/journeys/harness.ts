/**
 * The bench as a person meets it: the built app, served by the real command on a new book, in a real Chromium.
 *
 *     const bench = await openBench();            // once a file; null when there is no browser here
 *     const page = await bench.page(sizes.phone); // a fresh device each time
 *     await page.goto(bench.at("/rig"));
 */
import { type ChildProcess, execFileSync, spawn, spawnSync } from "node:child_process";
import {
  cpSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { createInterface } from "node:readline";
import axe from "axe-core";
import { type Browser, type BrowserContext, chromium, type Locator, type Page } from "playwright-core";
import { newBook } from "../../src/book/index.ts";

/**
 * How long a page is waited for, ms. Nothing is measured by it: it only ends a journey that would never end, and is long
 * enough for any machine, however busy.
 */
export const PATIENCE = 300_000;

export const sizes = {
  phone: { width: 390, height: 844, touch: true },
  tablet: { width: 820, height: 1180, touch: true },
  desk: { width: 1440, height: 900, touch: false },
} as const;
export interface Size {
  readonly width: number;
  readonly height: number;
  readonly touch?: boolean;
}
export type SizeName = keyof typeof sizes;
export const sizeNames = Object.keys(sizes) as SizeName[];

export interface OpenBench {
  readonly at: (path: string) => string;
  /** The book's file. */
  readonly book: string;
  /** A page of a fresh device, with its own storage. What goes wrong in it is collected in `troubles`. */
  page(size: Size, options?: DeviceOptions): Promise<Page & { readonly troubles: string[] }>;
  /** Stops the server and starts it again on the same port and book; in between the device is on its own. */
  stopServer(): Promise<void>;
  /** The same without a word: whatever it was at is left as it is. */
  killServer(): Promise<void>;
  startServer(): Promise<void>;
  close(): Promise<void>;
}

export interface DeviceOptions {
  readonly theme?: "light" | "dark" | "sun";
  readonly units?: "metric" | "us";
  readonly reducedMotion?: boolean;
  /** It takes the whole bench, to have it without a network; a device that does not ask is not kept busy by that. */
  readonly keepsOffline?: boolean;
}

/** Where Chromium is; null when there is none. */
export function chromiumPath(): string | null {
  const named = process.env.CHROMIUM_PATH;
  if (named !== undefined && named !== "") return existsSync(named) ? named : null;
  if (existsSync("/usr/bin/chromium")) return "/usr/bin/chromium";
  for (const name of ["chromium", "chromium-browser", "google-chrome"]) {
    const found = spawnSync("sh", ["-c", `command -v ${name}`], { encoding: "utf8" }).stdout.trim();
    if (found !== "") return found;
  }
  return null;
}

export const NO_BROWSER =
  "journeys skipped: no Chromium here (CHROMIUM_PATH, /usr/bin/chromium, chromium, google-chrome)";

const APP = "dist/web";
const BUILDING = "dist/.web-under-way";

/** Builds the app when it was never built or is older than its sources; of several test files at once, one builds. */
export function builtApp(): string {
  whileNobodyBuilds(buildWhenOld);
  return APP;
}

/** The same, copied to a folder of the journey's own: a server started again later finds it, whoever builds meanwhile. */
export function builtCopy(folder: string): string {
  const copy = join(folder, "app");
  whileNobodyBuilds(() => {
    buildWhenOld();
    cpSync(APP, copy, { recursive: true });
  });
  return copy;
}

function buildWhenOld(): void {
  const built = statSync(join(APP, "index.html"), { throwIfNoEntry: false })?.mtimeMs ?? 0;
  if (built >= newest([...rooms().map((room) => join("src", room)), "vite.config.ts", "scripts/viewer-page.ts"]))
    return;
  execFileSync(process.execPath, ["node_modules/vite/bin/vite.js", "build", "--logLevel", "error"], {
    stdio: ["ignore", "ignore", "inherit"],
    // A test's own NODE_ENV would build React's slow development form.
    env: { ...process.env, NODE_ENV: "production" },
  });
}

function whileNobodyBuilds(act: () => void): void {
  mkdirSync("dist", { recursive: true });
  for (;;) {
    try {
      writeFileSync(BUILDING, String(process.pid), { flag: "wx" });
      break;
    } catch {
      // One that was killed has left its mark behind.
      if (!running(markOf(BUILDING))) rmSync(BUILDING, { force: true });
      Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, 250);
    }
  }
  try {
    act();
  } finally {
    rmSync(BUILDING, { force: true });
  }
}

/** The process that builds; 0 when the mark was taken away meanwhile, or is not written yet. */
function markOf(path: string): number {
  try {
    return Number(readFileSync(path, "utf8"));
  } catch {
    return 0;
  }
}

function running(pid: number): boolean {
  if (pid === 0) return true;
  try {
    process.kill(pid, 0);
    return true;
  } catch {
    return false;
  }
}

/** Rooms that may be built in: the web uses the doors of all but these. */
function rooms(): readonly string[] {
  return readdirSync("src").filter((name) => !["server", "cli", "book"].includes(name));
}

function newest(paths: readonly string[]): number {
  let latest = 0;
  for (const path of paths) {
    const about = statSync(path);
    latest = Math.max(
      latest,
      about.isDirectory() ? newest(readdirSync(path).map((name) => join(path, name))) : about.mtimeMs,
    );
  }
  return latest;
}

/**
 * Opens a bench on a book: a new empty one, or one that `make` makes.
 * @param built the folder of the built app; by default the one that is built when needed
 * @param more further options of the command
 * @returns null when there is no browser
 */
export async function openBench(
  make: (path: string) => void = emptyBook,
  built?: string,
  more: readonly string[] = [],
): Promise<OpenBench | null> {
  const executablePath = chromiumPath();
  if (executablePath === null) {
    console.log(NO_BROWSER);
    return null;
  }
  const folder = mkdtempSync(join(tmpdir(), "rodebench-journey-"));
  const app = built ?? builtCopy(folder);
  const book = join(folder, "journey.book");
  make(book);
  let server = await serve(book, app, folder, 0, more);
  const port = Number(new URL(server.address).port);
  const devices = freshDevices(executablePath);
  return {
    at: (path) => `${server.address.replace(/\/$/, "")}${path}`,
    book,
    page: devices.page,
    stopServer: () => server.stop(),
    killServer: () => server.kill(),
    async startServer() {
      for (;;) {
        try {
          server = await serve(book, app, folder, port, more);
          return;
        } catch (error) {
          // While it was down its port may have been lent to somebody else for a moment.
          if (!String(error).includes("in use already")) throw error;
        }
      }
    },
    async close() {
      await devices.close();
      await server.stop();
      rmSync(folder, { recursive: true, force: true });
    },
  };
}

/**
 * What Chromium writes on the console when the server is out of reach: one that was stopped on purpose, or a network that
 * was taken away, is no fault of the page. The last is what it says of a service worker's script then; a script that the
 * server refuses, or that is bad, it tells of in other words.
 */
const OUT_OF_REACH = /net::ERR_|Failed to load resource|An unknown error occurred when fetching the script/;

/** A page whose troubles are collected from now on: faults of its scripts, and what is told as an error on its console. */
export function watched(page: Page): Page & { readonly troubles: string[] } {
  const troubles: string[] = [];
  page.on("pageerror", (error) => troubles.push(String(error)));
  page.on("console", (message) => {
    if (message.type() === "error" && !OUT_OF_REACH.test(message.text())) troubles.push(message.text());
  });
  return Object.assign(page, { troubles });
}

/** Devices in one browser, each with its own storage; the browser is started with the first. */
export function freshDevices(executablePath: string): Pick<OpenBench, "page"> & { close(): Promise<void> } {
  let browser: Browser | undefined;
  const contexts: BrowserContext[] = [];
  return {
    async page(size, options = {}) {
      browser ??= await chromium.launch({
        executablePath,
        args: ["--no-sandbox", "--disable-dev-shm-usage"],
        timeout: PATIENCE,
      });
      const context = await browser.newContext({
        viewport: { width: size.width, height: size.height },
        hasTouch: size.touch ?? false,
        isMobile: size.touch ?? false,
        reducedMotion: options.reducedMotion === false ? "no-preference" : "reduce",
        serviceWorkers: options.keepsOffline ? "allow" : "block",
      });
      contexts.push(context);
      if (options.keepsOffline) keeping.add(context);
      // What names functions for the compiler of the tests is not there in a page.
      await context.addInitScript("globalThis.__name = (it) => it");
      const { theme, units } = options;
      await context.addInitScript(
        (kept) => {
          if (localStorage.getItem("rodebench preferences") === null)
            localStorage.setItem("rodebench preferences", kept);
        },
        JSON.stringify({ theme: theme ?? "light", system: units ?? "metric" }),
      );
      context.setDefaultTimeout(PATIENCE);
      return watched(await context.newPage());
    },
    async close() {
      for (const context of contexts) await context.close();
      await browser?.close();
    },
  };
}

function emptyBook(path: string): void {
  newBook(path, { title: "Journey" }, { who: "journey" }).close();
}

interface Server {
  readonly address: string;
  stop(): Promise<void>;
  kill(): Promise<void>;
}

/** The command as it is built, where that is newer than its sources; else from the sources, which takes seconds to begin. */
function command(): readonly string[] {
  const built = "dist/cli/main.js";
  const since = statSync(built, { throwIfNoEntry: false })?.mtimeMs ?? 0;
  return since >= newest(["src", "package.json"]) ? [built] : ["--import", "tsx", "src/cli/main.ts"];
}

async function serve(book: string, app: string, home: string, port: number, more: readonly string[]): Promise<Server> {
  const child = spawn(
    process.execPath,
    [...[...command(), "open", book], ...["--no-browser", "--json", "--port", String(port), "--app", app, ...more]],
    { env: { ...process.env, HOME: home, XDG_DATA_HOME: home }, stdio: ["ignore", "pipe", "pipe"] },
  );
  let said = "";
  child.stderr.on("data", (part) => {
    said += String(part);
  });
  const address = await new Promise<string>((done, fail) => {
    let text = "";
    createInterface({ input: child.stdout }).on("line", (line) => {
      text += line;
      try {
        done((JSON.parse(text) as { address: string }).address);
      } catch {
        // The document goes on.
      }
    });
    child.on("exit", (status) => fail(new Error(`the bench ended with ${status}: ${said}`)));
  });
  return { address, stop: () => stopped(child, "SIGINT"), kill: () => stopped(child, "SIGKILL") };
}

function stopped(child: ChildProcess, signal: "SIGINT" | "SIGKILL"): Promise<void> {
  if (child.exitCode !== null || child.signalCode !== null) return Promise.resolve();
  return new Promise((done) => {
    child.on("exit", () => done());
    child.kill(signal);
  });
}

/** Waits until what was done last has been drawn: two frames of the page. */
export async function drawn(page: Page): Promise<void> {
  await page.evaluate(() => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done))));
}

/**
 * Where something is on the screen, once it has stood still for some frames: a pointer sent to where it was misses it.
 * @returns px
 */
export async function boxAtRest(
  it: Locator,
): Promise<{ readonly x: number; readonly y: number; readonly width: number; readonly height: number }> {
  await it.evaluate(async (element) => {
    let before = "";
    for (let same = 0; same < 5; ) {
      await new Promise(requestAnimationFrame);
      const { x, y, width, height } = element.getBoundingClientRect();
      const now = [x, y, width, height].join();
      same = now === before ? same + 1 : 0;
      before = now;
    }
  });
  return (await it.boundingBox())!;
}

/**
 * A violation in one line: rule, what it is, and where. Looked for from the top of the page: what lies half under a bar by
 * the chance of a scroll is measured as if that half were all of it, and is no small target.
 */
export async function axeViolations(page: Page, of: keyof typeof AXE_RULES = "all"): Promise<string[]> {
  const scrolled = await page.evaluate(() => globalThis.scrollY);
  await page.evaluate(() => globalThis.scrollTo(0, 0));
  await drawn(page);
  // By the debugger, past the page's policy, which forbids foreign scripts as it should.
  await page.evaluate(axe.source);
  return page.evaluate(
    async ([top, runOnly]) => {
      const page = (globalThis as unknown as { axe: { run(options: unknown): Promise<AxeAnswer> } }).axe;
      const { violations } = await page.run({ runOnly });
      globalThis.scrollTo(0, top);
      return violations.map(
        ({ id, help, nodes }) => `${id}: ${help}: ${nodes.map(({ target }) => target.join(" ")).join(", ")}`,
      );
    },
    [scrolled, [...AXE_RULES[of]]] as const,
  );
}

/** All that axe tells by rule; or only what hangs on colours, for a page that was asked for all in another theme. */
const AXE_RULES = {
  all: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"],
  colours: ["color-contrast", "link-in-text-block"],
} as const;

interface AxeAnswer {
  readonly violations: readonly {
    readonly id: string;
    readonly help: string;
    readonly nodes: readonly { readonly target: readonly string[] }[];
  }[];
}

/**
 * By how much the page sticks out sideways, px: it must not on any screen. Against the screen itself: a phone's browser
 * widens its own idea of the page to what sticks out.
 */
export async function sideways(page: Page): Promise<number> {
  const wide = await page.evaluate(() => document.documentElement.scrollWidth);
  return wide - page.viewportSize()!.width;
}

/** Opens every panel of the place that is folded, and goes back to its top. */
export async function unfold(page: Page): Promise<void> {
  const folded = page.locator('h2 > button[aria-expanded="false"]');
  while ((await folded.count()) > 0) await folded.first().click();
  await page.evaluate(() => globalThis.scrollTo(0, 0));
}

/** What stands written in a drawing, whichever way its lines were broken. */
export const wordsOf = (svg: string): string => svg.replace(/<[^>]+>/g, " ").replace(/\s+/g, " ");

/** A figure saved by its menu, as the browser keeps it. */
export async function saved(
  page: Page,
  title: string | RegExp,
  as: "SVG" | "PNG" | "CSV",
): Promise<{ readonly name: string; readonly bytes: Buffer; readonly text: string }> {
  const name = typeof title === "string" ? `Export: ${title}` : title;
  await page.getByRole("button", { name }).first().click();
  const [download] = await Promise.all([
    page.waitForEvent("download"),
    page.getByRole("button", { name: `Save as ${as}` }).click(),
  ]);
  const bytes = readFileSync((await download.path())!);
  return { name: download.suggestedFilename(), bytes, text: bytes.toString("utf8") };
}

/**
 * Waits until the address has what only the new state has: it is written a moment after a change, so that what it does
 * not have yet says nothing.
 * @returns the whole address, to be opened elsewhere
 */
export async function addressed(page: Page, holds: string | RegExp | ((address: URL) => boolean)): Promise<string> {
  const has =
    typeof holds === "function"
      ? holds
      : ({ href }: URL) => (typeof holds === "string" ? href.includes(holds) : holds.test(href));
  await page.waitForURL(has, { waitUntil: "commit" });
  return page.url();
}

/** Devices whose service worker may hold the bench. */
const keeping = new WeakSet<BrowserContext>();

/** Waits until the service worker holds the whole bench; only then may the network be taken away. */
export async function keptOffline(page: Page): Promise<void> {
  if (!keeping.has(page.context())) throw new Error("a device opened with keepsOffline is expected");
  await page.evaluate(async () => {
    const { active } = await navigator.serviceWorker.ready;
    while (active!.state !== "activated")
      await new Promise((done) => active!.addEventListener("statechange", done, { once: true }));
  });
}

/** What the device itself holds of a place's state: the fields of its address, none when it holds nothing. */
export function heldByDevice(page: Page, place: string): Promise<Readonly<Record<string, string>>> {
  return page.evaluate(
    (name) =>
      new Promise<Record<string, string>>((done, fail) => {
        const opening = indexedDB.open("rodebench");
        opening.onerror = () => fail(opening.error);
        opening.onsuccess = () => {
          const asked = opening.result.transaction("states").objectStore("states").get(name);
          asked.onerror = () => fail(asked.error);
          asked.onsuccess = () => {
            opening.result.close();
            done((asked.result as Record<string, string> | undefined) ?? {});
          };
        };
      }),
    place,
  );
}
