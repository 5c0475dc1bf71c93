import { existsSync, mkdirSync, mkdtempSync, readdirSync, utimesSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, describe, expect, it } from "vitest";
import { SentFiles, safeName } from "../../src/server/sent-files.ts";
import { waitFor } from "../support/wait-for.ts";
import { benchWithBook, refused } from "./in-process.ts";

const { ask, send, newId, book, faults, stop, sentFolder } = benchWithBook();
afterAll(async () => {
  await stop();
  expect(faults).toEqual([]);
  book.close();
});

interface Sent {
  id: string;
  name: string;
  size: number;
  reading: {
    kind: string;
    answer?: Record<string, unknown>;
    error?: { place: string; given: string; expected: string };
  };
}
const octets = { "content-type": "application/octet-stream" };
const give = (name: string, body: BodyInit, more: Record<string, string> = {}) =>
  ask(`/api/1/sent-logs?name=${encodeURIComponent(name)}`, { method: "POST", headers: { ...octets, ...more }, body });
const sent = async (answer: Response | Promise<Response>) => ((await (await answer).json()) as { sent: Sent }).sent;

/** A log as a load cell writes it: a reading every 0.1 s. */
function csv(rows: number, shift = 0): string {
  const lines = ["Time;Load [kN]"];
  for (let i = 0; i < rows; i++) {
    const stamp = new Date(Date.UTC(2031, 4, 3, 9, shift) + 100 * i).toISOString();
    lines.push(`${stamp};${(2 + Math.sin(i / 50)).toFixed(3)}`);
  }
  return `${lines.join("\n")}\n`;
}

async function readOut(id: string): Promise<Sent["reading"]> {
  let reading: Sent["reading"] = { kind: "reading" };
  await waitFor(async () => {
    ({ reading } = await sent(ask(`/api/1/sent-logs/${id}`)));
    return reading.kind !== "reading";
  });
  return reading;
}

describe("a log sent from a device", () => {
  it("is taken in whole, looked at, read into the book, and read only once", async () => {
    const text = csv(1_000);
    const file = await sent(give("pull 7.csv", text));
    expect(file).toMatchObject({ name: "pull 7.csv", size: Buffer.byteLength(text), reading: { kind: "waiting" } });
    const { preview } = (await (await send("POST", `/api/1/sent-logs/${file.id}/preview`, {})).json()) as {
      preview: { guess: { kind: string; columns: { as: string; unit: string }[] } };
    };
    expect(preview.guess.kind).toBe("table");
    expect(preview.guess.columns.map((column) => column.as)).toEqual(["time", "load"]);
    expect(book.list("log")).toHaveLength(0);
    expect((await send("POST", `/api/1/sent-logs/${file.id}/read`, {})).status).toBe(202);
    const reading = await readOut(file.id);
    expect(reading).toMatchObject({ kind: "done", answer: { kind: "imported", rows: 1_000 } });
    const log = String(reading.answer!.log);
    expect(book.get("log", log)).toMatchObject({ name: "pull 7.csv" });
    // 2 kN and a little: kept in newtons.
    const view = book.logs.view(log, { points: 2_000 });
    expect(view.kind).toBe("readings");
    if (view.kind === "readings") expect(view.columns.load![0]).toBeCloseTo(2_000, 3);
    const again = await sent(give("renamed.csv", text));
    await send("POST", `/api/1/sent-logs/${again.id}/read`, {});
    expect(await readOut(again.id)).toMatchObject({ kind: "done", answer: { kind: "already", log } });
    expect(book.list("log")).toHaveLength(1);
    expect((await ask(`/api/1/sent-logs/${again.id}`, { method: "DELETE" })).status).toBe(200);
    expect(await refused(await ask(`/api/1/sent-logs/${again.id}`))).toMatch(/^404/);
  });
  it("is written under the name of who sent it", () => {
    expect(book.history({ record: book.list("log")[0]!.id }).at(-1)!.who).toBe("this computer");
  });
  it("that leaves a question open is not read, and the answer says what is asked", async () => {
    const before = [book.counts().logRows, book.list("log").length];
    const file = await sent(give("two numbers.csv", "a;b\n1;2\n3;4\n5;6\n"));
    await send("POST", `/api/1/sent-logs/${file.id}/read`, {});
    const reading = await readOut(file.id);
    expect(reading).toMatchObject({ kind: "done", answer: { kind: "asks" } });
    const { guess } = reading.answer as { guess: { questions: { question: string; answers: string[] }[] } };
    expect(guess.questions.length).toBeGreaterThan(0);
    expect([book.counts().logRows, book.list("log").length]).toEqual(before);
  });
  it("that is no log fails in one line that names the file, not where it lies", async () => {
    const file = await sent(give("letter.txt", "Dear all,\nthe anchor held.\n"));
    await send("POST", `/api/1/sent-logs/${file.id}/read`, {});
    const reading = await readOut(file.id);
    expect(reading.kind).toBe("failed");
    expect(reading.error!.place).toBe("letter.txt");
    expect(JSON.stringify(reading)).not.toContain(sentFolder);
  });
  it("stopped, it goes on where it was and ends with each row once", async () => {
    const rows = 300_000;
    const file = await sent(give("long.csv", csv(rows, 30)));
    await send("POST", `/api/1/sent-logs/${file.id}/read`, {});
    const stopped = await sent(send("POST", `/api/1/sent-logs/${file.id}/stop`, {}));
    expect(stopped.reading).toMatchObject({ kind: "done", answer: { kind: "stopped" } });
    await send("POST", `/api/1/sent-logs/${file.id}/read`, {});
    const ended = await readOut(file.id);
    expect(ended).toMatchObject({ kind: "done", answer: { kind: "imported", rows } });
  });
});

describe("what is refused", () => {
  it.each([
    ["no name", "", "a", {}, /^400 \?name/],
    ["a name that is a step up", "..", "a", {}, /^400 \?name/],
    ["a form", "a.csv", "a", { "content-type": "text/plain" }, /^415/],
    ["too much", "a.csv", "a", { "content-length": "5000000000" }, /^413/],
  ])("%s", async (_name, name, body, headers, line) => {
    expect(await refused(await give(name, body, headers))).toMatch(line);
  });
  it.each([
    [{ told: { columns: ["force=2"] } }, /^400 told\.columns\.0: "force" is no role of a column/],
    [{ told: { zone: "noon" } }, /^400 told\.zone/],
    [{ told: { colour: 1 } }, /^400 body\.told/],
    [{ force: true }, /^400 body/],
  ])("choices such as %j", async (body, line) => {
    const file = await sent(give("a.csv", csv(20)));
    const answer = await send("POST", `/api/1/sent-logs/${file.id}/preview`, body);
    expect(await refused(answer)).toMatch(line);
  });
  it.each(["x", "..", newId()])("a file that was not sent: %s", async (id) => {
    for (const path of ["preview", "read", "stop"]) {
      expect(
        (await send("POST", `/api/1/sent-logs/${encodeURIComponent(id)}/${path}`, {})).status,
      ).toBeGreaterThanOrEqual(400);
    }
  });
  it("an upload that breaks off leaves nothing", async () => {
    const before = readdirSync(sentFolder).length;
    const broken = new ReadableStream({
      start(controller) {
        controller.enqueue(new TextEncoder().encode("Time;Load\n"));
      },
      pull() {
        throw new Error("the phone is gone");
      },
    });
    const answer = await ask("/api/1/sent-logs?name=half.csv", {
      method: "POST",
      headers: octets,
      body: broken,
      duplex: "half",
    } as RequestInit);
    expect(await refused(answer)).toMatch(/^400 body: broken off; all of it/);
    expect(readdirSync(sentFolder)).toHaveLength(before);
  });
});

describe("names and what waits", () => {
  it.each([
    ["pull 7.csv", "pull 7.csv"],
    ["/etc/passwd", "passwd"],
    ["..\\..\\windows\\system.ini", "system.ini"],
    ["a\u0000b\nc.csv", "a_b_c.csv"],
    [".hidden", "hidden"],
    ["c:log.csv", "c_log.csv"],
    ["x".repeat(300), "x".repeat(120)],
    // A name of a file may take 255 bytes, of which these take three each.
    [`${"錨".repeat(120)}.csv`, `${"錨".repeat(65)}.csv`],
  ])("%j becomes %j", (given, name) => expect(safeName(given)).toBe(name));
  it.each(["", ".", "..", "/", "..."])("%j is no name", (given) =>
    expect(() => safeName(given)).toThrow(/the name of a file/),
  );
  it("no more may wait than may, however many come at once", async () => {
    const files = new SentFiles(mkdtempSync(join(tmpdir(), "sent-")), Date.now);
    let go = () => {};
    const gate = new Promise<void>((done) => {
      go = done;
    });
    const slow = async function* () {
      yield new TextEncoder().encode("a;b\n");
      await gate;
    };
    const all = Array.from({ length: 80 }, (_, i) => files.take(`${i}.csv`, slow()));
    const settled = Promise.allSettled(all);
    go();
    const ends = await settled;
    const refusals = ends.flatMap((end) => (end.status === "rejected" ? [String(end.reason)] : []));
    expect(refusals).toHaveLength(30);
    expect(refusals[0]).toMatch(/sent files: 50 wait already; read or remove some first/);
    expect(files.list()).toHaveLength(50);
    // One that was broken off makes room again.
    files.remove(files.list()[0]!.id);
    const broken = async function* () {
      yield new TextEncoder().encode("a");
      throw new Error("gone");
    };
    await expect(files.take("broken.csv", broken())).rejects.toThrow("gone");
    await files.take("last.csv", slow());
    expect(files.list()).toHaveLength(50);
  });
  it("whole files outlast a restart, and what others put there; halves and those a week old do not", async () => {
    const folder = mkdtempSync(join(tmpdir(), "sent-"));
    const one = async function* () {
      yield new TextEncoder().encode("a;b\n1;2\n");
    };
    const files = new SentFiles(folder, Date.now);
    const [kept, old] = [await files.take("kept.csv", one()), await files.take("old.csv", one())];
    mkdirSync(join(folder, `${newId()}.part`));
    writeFileSync(join(folder, "stranger"), "");
    const week = (Date.now() - 8 * 24 * 3_600_000) / 1000;
    utimesSync(join(folder, old.id), week, week);
    expect(new SentFiles(folder, Date.now).list().map((file) => file.name)).toEqual(["kept.csv"]);
    expect(readdirSync(folder).sort()).toEqual([kept.id, "stranger"]);
    expect(existsSync(kept.path)).toBe(true);
  });
});
