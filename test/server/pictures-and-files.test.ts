import { createHash } from "node:crypto";
import { afterAll, describe, expect, it } from "vitest";
import { benchWithBook, refused } from "./in-process.ts";

const { ask, send, newId, book, faults } = benchWithBook();
afterAll(() => {
  expect(faults).toEqual([]);
  book.close();
});

const png = new Uint8Array([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a, 1, 2, 3]);
const give = (bytes: Uint8Array<ArrayBuffer> | string, query = "") =>
  ask(`/api/1/pictures${query}`, { method: "POST", body: bytes });
type Picture = { record: { id: string; type: string; copy: string; caption: string } };

describe("a picture", () => {
  it("is copied in by its first bytes, not by its name, and shown again bit for bit", async () => {
    const { record } = (await (await give(png, "?caption=Fluke%20tip")).json()) as Picture;
    expect(record).toMatchObject({
      type: "image/png",
      caption: "Fluke tip",
      copy: createHash("sha256").update(png).digest("hex"),
    });
    const shown = await ask(`/api/1/files/${record.copy}`);
    expect(new Uint8Array(await shown.arrayBuffer())).toEqual(png);
    expect(shown.headers.get("content-type")).toBe("image/png");
    expect(shown.headers.get("content-security-policy")).toBe("default-src 'none'; sandbox");
  });
  it("sent twice is kept once", async () => {
    const other = new Uint8Array([...png, 9]);
    const [first, second] = [await give(other), await give(other)];
    expect(((await first.json()) as Picture).record.id).toBe(((await second.json()) as Picture).record.id);
    expect(
      book.list("picture").filter((one) => one.copy === createHash("sha256").update(other).digest("hex")),
    ).toHaveLength(1);
  });
  it.each([
    ["SVG, which can carry script", '<svg xmlns="http://www.w3.org/2000/svg" onload="alert(1)"/>'],
    ["HTML", "<!doctype html><script>alert(1)</script>"],
    ["nothing", ""],
    ["a program", "MZ\u0000\u0001"],
  ])("that is %s is refused", async (_name, bytes) => {
    expect(await refused(await give(bytes))).toMatch(/^415 body: \d+ bytes; a picture or clip: image\/jpeg/);
  });
  it("too large is refused", async () => {
    const answer = await ask("/api/1/pictures", {
      method: "POST",
      headers: { "content-length": "60000000" },
      body: png,
    });
    expect(await refused(answer)).toMatch(/^413/);
  });
  it.each(["0".repeat(64), "x", "..", "%2e%2e%2fetc"])("a file that is not there: %s", async (name) => {
    expect((await ask(`/api/1/files/${name}`)).status).toBeGreaterThanOrEqual(400);
  });
  it("of something the book does not hold is refused", async () => {
    expect(await refused(await give(png, `?about=${newId()}`))).toMatch(/^400 picture.about/);
    expect(await refused(await give(png, "?colour=red"))).toMatch(/^400/);
  });
});

describe("a rig file inside a record is checked as the file itself is", () => {
  const good = `format: rodebench/rig@1
name: Quay rig
setting: { medium: air, rise: 9 m }
rode:
  - chain: { grade: "30", size: 10 mm, length: 30 m }
`;
  const rig = newId();
  const version = (file: string) =>
    send("PUT", `/api/1/records/rigVersion/${newId()}`, { expected: null, set: { rig, file } });
  it("a good one is kept whole", async () => {
    expect((await send("PUT", `/api/1/records/rig/${rig}`, { expected: null, set: { name: "Quay rig" } })).status).toBe(
      200,
    );
    const { record } = (await (await version(good)).json()) as { record: { file: string } };
    expect(record.file).toBe(good);
  });
  it("a wrong one is refused with its own line", async () => {
    expect(await refused(await version(good.replace("30 m", "12 kn")))).toMatch(
      /^400 rigVersion\.file: .*length.*12 kn/,
    );
    expect(await refused(await version("not a rig"))).toMatch(/^400 rigVersion\.file/);
  });
  it("also when it was written offline", async () => {
    const transaction = {
      id: newId(),
      device: newId(),
      at: "2031-05-03T10:00:00Z",
      label: "rig",
      records: [{ kind: "rigVersion", id: newId(), makes: true, set: { rig, file: "not a rig" } }],
    };
    const { transactions } = (await (await send("POST", "/api/1/join", { transactions: [transaction] })).json()) as {
      transactions: { kind: string }[];
    };
    expect(transactions[0]!.kind).toBe("refused");
  });
  it("a boat file likewise", async () => {
    const wrong = await send("PUT", `/api/1/records/boat/${newId()}`, {
      expected: null,
      set: { name: "x", file: "format: rodebench/boat@9" },
    });
    expect(await refused(wrong)).toMatch(/^400 boat\.file/);
  });
});
