import { spawn } from "node:child_process";
import { existsSync, mkdirSync, mkdtempSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { newBook, openBook } from "../../src/book/index.ts";
import { browserCommand } from "../../src/server/browser.ts";
import { dataFolder } from "../../src/server/data-folder.ts";
import { Devices } from "../../src/server/index.ts";
import { rodebench } from "../support/command-line.ts";
import { schemaTroubles } from "../support/schema-troubles.ts";
import { waitFor } from "../support/wait-for.ts";

const folder = mkdtempSync(join(tmpdir(), "open-"));
const app = join(folder, "web");
const season = join(folder, "season.book");
mkdirSync(app);
writeFileSync(join(app, "index.html"), "<!doctype html><title>the bench</title>");
newBook(season, { title: "Season" }).close();

const before = process.env.XDG_DATA_HOME;
beforeAll(() => {
  process.env.XDG_DATA_HOME = join(folder, "data");
});
afterAll(() => {
  if (before === undefined) delete process.env.XDG_DATA_HOME;
  else process.env.XDG_DATA_HOME = before;
});

/** Runs `rodebench open …` in process until the test stops it. */
function opened(...argv: string[]) {
  const stop = new AbortController();
  let [out, err] = ["", ""];
  const heard = (text: string) => {
    out += text;
  };
  const machine = { cwd: folder, stop: stop.signal, heard };
  const ended = rodebench(["open", ...argv], {}, machine).then((said) => {
    err = said.err;
    return said.status;
  });
  const address = async (): Promise<string> => {
    const found = () => /http:\/\/127\.0\.0\.1:\d+/.exec(out)?.[0];
    let over = false;
    void ended.then(() => {
      over = true;
    });
    await waitFor(() => over || found() !== undefined);
    return found() ?? `no address: ${out}${err}`;
  };
  return { address, ended, stop: () => stop.abort(), out: () => out, err: () => err };
}

describe("rodebench open", () => {
  it("prints one address, serves the app and the book there, and closes when stopped", async () => {
    const run = opened("season.book", "--app", "web", "--port", "0");
    const address = await run.address();
    expect(run.out()).toBe(`${address}\n`);
    expect(await (await fetch(address)).text()).toContain("the bench");
    expect(await (await fetch(`${address}/api/1/book`)).json()).toMatchObject({ about: { title: "Season" } });
    run.stop();
    expect(await run.ended).toBe(0);
    await expect(fetch(address)).rejects.toThrow();
  });
  it("--json is one document, with the address and the book", async () => {
    const run = opened("season.book", "--app", "web", "--port", "0", "--json");
    const address = await run.address();
    expect(JSON.parse(run.out())).toEqual({ format: "rodebench/opened@1", address, book: season });
    expect(schemaTroubles("opened@1", JSON.parse(run.out()))).toEqual([]);
    run.stop();
    expect(await run.ended).toBe(0);
  });
  it("a port that is taken by another bench is told, and its own is taken in place of the usual one", async () => {
    const first = opened("season.book", "--app", "web", "--port", "0");
    const port = new URL(await first.address()).port;
    const second = opened("season.book", "--app", "web", "--port", port);
    expect(await second.ended).toBe(2);
    expect(second.err()).toBe(`port ${port} of 127.0.0.1: in use already; a free port, such as --port 0 finds\n`);
    first.stop();
    expect(await first.ended).toBe(0);
  });
  it("without a name it makes the embedded book in the user's data folder, once", async () => {
    const titles: string[] = [];
    for (let time = 0; time < 2; time++) {
      const run = opened("--app", "web", "--port", "0");
      const address = await run.address();
      const { about } = (await (await fetch(`${address}/api/1/book`)).json()) as {
        about: { title: string; simulated: boolean };
      };
      expect(about.simulated).toBe(true);
      titles.push(about.title);
      run.stop();
      expect(await run.ended).toBe(0);
    }
    expect(titles[0]).toBe(titles[1]);
    expect(existsSync(join(folder, "data", "rodebench", "demo.book"))).toBe(true);
  });
  it("lists and withdraws devices by file, without a bench", async () => {
    const run = opened("season.book", "--devices");
    expect([await run.ended, run.out()]).toEqual([0, "no device is let in\n"]);
    const none = opened("season.book", "--withdraw", "Phone");
    expect([await none.ended, none.err()]).toEqual([
      2,
      '--withdraw: "Phone"; the id or the name of a device that is let in\n',
    ]);
    const book = openBook(season);
    const file = join(folder, "data", "rodebench", `devices-${book.context.device}.json`);
    book.close();
    mkdirSync(dirname(file), { recursive: true });
    new Devices(file, () => Date.parse("2031-05-17T08:00:00Z")).add("Foredeck phone");
    const listed = opened("season.book", "--devices", "--json");
    expect(await listed.ended).toBe(0);
    const document = JSON.parse(listed.out());
    expect(document.devices).toMatchObject([{ name: "Foredeck phone", addedAt: "2031-05-17T08:00:00.000Z" }]);
    expect(schemaTroubles("devices-listed@1", document)).toEqual([]);
    const withdrawn = opened("season.book", "--withdraw", "Foredeck phone", "--json");
    expect(await withdrawn.ended).toBe(0);
    expect(JSON.parse(withdrawn.out()).devices).toEqual([]);
  });
  it.each([
    [["none.book", "--app", "web"], /none\.book: no such file; a book is expected/],
    [["season.book", "--app", "none"], /^none: not there; the built web app is expected; `npm run build` makes it$/],
    [["season.book", "--app", "web", "--port", "http"], /^--port: "http"; a port from 0 to 65535 is expected$/],
    [["season.book", "--app", "web", "--port", "65536"], /^--port: "65536"/],
    [["season.book", "--app", "web", "--https"], /^--https: without --boat-network; both are expected, or none$/],
    [
      ["season.book", "--app", "web", "--boat-network", "--certificate", "a.pem"],
      /^--certificate: alone; --certificate and --key/,
    ],
    [["season.book", "--app", "web", "--boat-network", "--https", "--key", "a.pem"], /^--https: with --certificate/],
    [
      ["season.book", "--app", "web", "--boat-network", "--certificate", "a.pem", "--key", "b.pem"],
      /^a\.pem: no such file/,
    ],
    [
      ["season.book", "--app", "web", "--port", "0", "--boat-network", "203.0.113.9"],
      /^boat network: .*private network/,
    ],
    [["web", "--app", "web"], /web: a folder; a book is expected/],
  ])("%j is refused in one line", async (argv, line) => {
    const run = opened(...argv);
    expect(await run.ended).toBe(2);
    expect(run.err().trimEnd()).toMatch(line);
    expect(run.err().trimEnd()).not.toContain("\n");
    expect(run.out()).toBe("");
  });
});

describe("as a program of its own", () => {
  it("ctrl-c closes the bench and the book in good order, with status 0", async () => {
    const main = join(import.meta.dirname, "..", "..", "src", "cli", "main.ts");
    const argv = ["--import", "tsx", main, "open", season, "--app", app, "--port", "0", "--json"];
    const child = spawn(process.execPath, argv, { stdio: ["ignore", "pipe", "pipe"] });
    let err = "";
    child.stderr.on("data", (text: Buffer) => {
      err += text.toString();
    });
    const out = await new Promise<string>((done, fail) => {
      child.stdout.once("data", (text: Buffer) => done(text.toString()));
      child.once("exit", (code) => fail(new Error(`ended with ${code}: ${err}`)));
    });
    const { address } = JSON.parse(out) as { address: string };
    expect((await fetch(`${address}/api/1/book`)).status).toBe(200);
    const ended = new Promise<number | null>((done) => child.once("exit", done));
    child.kill("SIGINT");
    expect(await ended).toBe(0);
    expect(err).toBe("");
    // SQLite clears its journal away only when a book is closed in good order.
    expect(existsSync(`${season}-wal`)).toBe(false);
  });
});

describe("where things are", () => {
  it("the data folder follows the habit of the system", () => {
    const at = (platform: NodeJS.Platform, env: Record<string, string>) =>
      dataFolder({ platform, home: "/home/tess", env });
    expect(at("linux", {})).toBe("/home/tess/.local/share/rodebench");
    expect(at("linux", { XDG_DATA_HOME: "/data" })).toBe("/data/rodebench");
    expect(at("linux", { XDG_DATA_HOME: "relative" })).toBe("/home/tess/.local/share/rodebench");
    expect(at("darwin", {})).toBe("/home/tess/Library/Application Support/rodebench");
    expect(at("win32", { APPDATA: "/roaming" })).toBe("/roaming/rodebench");
  });
  it("the browser is opened by the system's own program", () => {
    expect(browserCommand("linux", "http://x")).toEqual(["xdg-open", ["http://x"]]);
    expect(browserCommand("darwin", "http://x")).toEqual(["open", ["http://x"]]);
    expect(browserCommand("win32", "http://x")[0]).toBe("cmd");
  });
});
