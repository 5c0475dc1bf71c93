import fc from "fast-check";
import { afterAll, describe, expect, it } from "vitest";
import { benchWithBook, boat, refused } from "./in-process.ts";

const { ask, askOverBoat, send, newId, network, book, faults, clock } = benchWithBook();
afterAll(() => {
  expect(faults).toEqual([]);
  book.close();
});

const phone = newId();
interface Became {
  act: string;
  kind: "joined" | "known" | "refused";
  error?: { place: string; given: string; expected: string };
}
const at = (minute: number) => new Date(Date.UTC(2031, 4, 3, 10, minute)).toISOString();
const note = (text: string, minute = 0) => {
  const id = newId();
  const record = { kind: "note", id, makes: true, set: { text } };
  return { id: newId(), device: phone, at: at(minute), label: "note on the foredeck", records: [record] };
};
const join = async (acts: readonly object[]) =>
  ((await (await send("POST", "/api/1/join", { acts })).json()) as { acts: Became[] }).acts;
const notes = () => book.list("note").map((one) => one.text);

describe("what was written offline joins the book", () => {
  it("each act once, however often it is sent", async () => {
    const acts = [note("first"), note("second")];
    expect((await join(acts)).map((one) => one.kind)).toEqual(["joined", "joined"]);
    expect((await join(acts)).map((one) => one.kind)).toEqual(["known", "known"]);
    expect(notes().filter((text) => text === "first" || text === "second")).toHaveLength(2);
  });
  it("sent in any pieces, in any order, with any repeats: the same book", async () => {
    await fc.assert(
      fc.asyncProperty(
        fc.integer({ min: 1, max: 6 }).chain((count) =>
          fc.record({
            count: fc.constant(count),
            pieces: fc.array(fc.array(fc.integer({ min: 0, max: count - 1 }), { minLength: 1, maxLength: 8 }), {
              minLength: 1,
              maxLength: 5,
            }),
          }),
        ),
        async ({ count, pieces }) => {
          const mark = newId();
          const acts = Array.from({ length: count }, (_, i) => note(`${mark} ${i}`, i));
          for (const piece of pieces) await join(piece.map((i) => acts[i]!));
          // What never got through is sent at last, with all the rest again.
          await join(acts);
          const mine = notes().filter((text) => text?.startsWith(mark));
          expect(mine.sort()).toEqual(acts.map((_, i) => `${mark} ${i}`));
        },
      ),
      { seed: 20310503, numRuns: 40 },
    );
  });
  it("one that is refused holds up no other and tells why", async () => {
    const good = [note("before"), note("after")];
    const bad = {
      ...note("x"),
      records: [{ kind: "site", id: newId(), makes: true, set: { name: "x", latitude_deg: 91 } }],
    };
    const became = await join([good[0]!, bad, good[1]!]);
    expect(became.map((one) => one.kind)).toEqual(["joined", "refused", "joined"]);
    expect(became[1]!.error!.place).toMatch(/latitude_deg$/);
    expect(became[1]!.error!.given).toBe("91");
  });
  it("keeps the device's own time, and a later change at the computer stands", async () => {
    const site = newId();
    const made = await send("PUT", `/api/1/records/site/${site}`, { expected: null, set: { name: "At the computer" } });
    expect(made.status).toBe(200);
    // The phone changed the name in 2001, long before the computer did.
    const early = {
      ...note("x"),
      at: "2001-05-03T09:00:00.000Z",
      records: [{ kind: "site", id: site, makes: false, set: { name: "On the phone", description: "mud" } }],
    };
    expect((await join([early]))[0]!.kind).toBe("joined");
    expect(book.get("site", site)).toMatchObject({ name: "At the computer", description: "mud" });
  });
  it("carries the name of the device that was let in, whatever it says of itself", async () => {
    const { code } = network.code.issue();
    const form = new URLSearchParams({ code, name: "Foredeck phone" });
    const letIn = await askOverBoat("/let-in", { method: "POST", headers: { origin: boat }, body: form });
    const headers = { cookie: letIn.headers.get("set-cookie")!.split(";")[0]!, "content-type": "application/json" };
    const act = note("from the phone");
    const forged = await askOverBoat("/api/1/join", {
      method: "POST",
      headers,
      body: JSON.stringify({ acts: [{ ...act, who: "Skipper" }] }),
    });
    expect(await refused(forged)).toMatch(/^400 body.acts/);
    expect(
      (await askOverBoat("/api/1/join", { method: "POST", headers, body: JSON.stringify({ acts: [act] }) })).status,
    ).toBe(200);
    expect(book.history({ record: act.records[0]!.id })[0]).toMatchObject({ who: "Foredeck phone", manner: "offline" });
    // Withdrawn and let in again, it sends the same act once more: known.
    network.devices.withdraw(network.devices.list()[0]!.id);
    expect(
      (await askOverBoat("/api/1/join", { method: "POST", headers, body: JSON.stringify({ acts: [act] }) })).status,
    ).toBe(401);
    clock.ms += 1;
    expect((await join([act]))[0]!.kind).toBe("known");
  });
  it.each([
    ["no acts", { acts: [] }, /^400 body.acts/],
    ["an act without records", { acts: [{ ...note("x"), records: [] }] }, /^400 body.acts.0.records/],
    ["more", { acts: [note("x")], force: true }, /^400 body/],
    ["nothing", {}, /^400 body.acts/],
  ])("a batch with %s is refused", async (_name, body, line) => {
    expect(await refused(await send("POST", "/api/1/join", body))).toMatch(line);
  });
  it.each([
    ["an id that is none", { id: "1" }],
    ["a device that is none", { device: "phone" }],
    ["a time that is none", { at: "yesterday" }],
    ["a kind that is none", { records: [{ kind: "ship", id: newId(), makes: true, set: {} }] }],
    ["a change to nothing", { records: [{ kind: "site", id: newId(), makes: false, set: { name: "x" } }] }],
    [
      "a pointer to nothing",
      { records: [{ kind: "seabed", id: newId(), makes: true, set: { name: "x", site: newId() } }] },
    ],
  ])("an act with %s is refused, and nothing of it is written", async (_name, wrong) => {
    const before = book.counts();
    expect((await join([{ ...note("x"), ...wrong }]))[0]!.kind).toBe("refused");
    expect(book.counts()).toEqual(before);
  });
  it("only as JSON, only so much", async () => {
    expect(await refused(await ask("/api/1/join", { method: "POST", body: "{}" }))).toMatch(/^415/);
    const headers = { "content-type": "application/json", "content-length": "17000000" };
    expect(await refused(await ask("/api/1/join", { method: "POST", headers, body: "{}" }))).toMatch(/^413/);
  });
});
