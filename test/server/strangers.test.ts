import { connect, type Socket } from "node:net";
import { afterAll, afterEach, beforeAll, describe, expect, it } from "vitest";
import { makeAuthority } from "../../src/server/certificate/authority.ts";
import { type Bench, openBench } from "../../src/server/index.ts";
import { waitFor } from "../support/wait-for.ts";

/** As many as a listener takes in all: every one of them held used to lock it for as long as they lasted. */
const MANY = 512;
let bench: Bench;
const sockets: Socket[] = [];

beforeAll(async () => {
  bench = await openBench({
    topics: [
      (api) => {
        api.get("/who", (c) => c.json({ who: c.get("by").who }));
        api.post("/length", async (c) => c.json({ length: (await c.req.text()).length }));
      },
    ],
    builtFolder: "",
    devicesFile: "",
    port: 0,
    now: Date.now,
    // All of 127/8 is this machine on Linux.
    ownAddresses: () => ["127.0.0.4"],
    fault: () => undefined,
  });
});
afterEach(async () => {
  for (const socket of sockets.splice(0)) socket.destroy();
  await fetch(`${bench.address}/api/1/boat-network`, { method: "DELETE" });
});
afterAll(() => bench.close());

/** A connection that says so much and then nothing; `ended` tells that the other side let go. */
function half(address: URL, text: string, from = "127.0.0.1") {
  const socket = connect({ host: address.hostname, port: Number(address.port), localAddress: from });
  sockets.push(socket);
  const state = { ended: false };
  socket.on("error", () => undefined);
  socket.on("close", () => {
    state.ended = true;
  });
  socket.on("connect", () => socket.write(text));
  socket.resume();
  return state;
}

async function letIn(address: string, code: string): Promise<string> {
  const body = new URLSearchParams({ code, name: "Tablet" });
  const answer = await fetch(`${address}/let-in`, { method: "POST", body, redirect: "manual" });
  return answer.headers.get("set-cookie")!.split(";")[0]!;
}

const halfBody = ({ host }: URL) =>
  `POST /let-in HTTP/1.1\r\nHost: ${host}\r\nContent-Type: application/x-www-form-urlencoded\r\nContent-Length: 100\r\n\r\ncode=`;
const refusedBody = ({ host }: URL) =>
  `PUT /api/1/records/site/x HTTP/1.1\r\nHost: ${host}\r\nContent-Type: application/json\r\nContent-Length: 100\r\n\r\n{`;
const halfHead = ({ host }: URL) => `GET /let-in HTTP/1.1\r\nHost: ${host}\r\n`;

describe.skipIf(process.platform !== "linux")("whoever has no key", () => {
  it.each([
    ["half a form", halfBody],
    ["half a body to an address that refuses it", refusedBody],
    ["half a head", halfHead],
    ["nothing", () => ""],
  ])(`%s on ${MANY} connections locks nobody out`, async (_, text) => {
    // So long a deadline that only the number of them can be what keeps the door open.
    const strangers = { deadline: 3_600_000, most: 128, mostOfOne: 16 };
    const { addresses, code } = await bench.openToBoatNetwork({ encryption: { kind: "none" }, strangers });
    const address = new URL(addresses[0]!);
    const cookie = await letIn(address.origin, code);
    const held = Array.from({ length: MANY }, (_, i) => half(address, text(address), `127.0.1.${1 + (i % 64)}`));
    await waitFor(() => held.filter(({ ended }) => ended).length >= MANY - 128);
    expect(held.filter(({ ended }) => !ended).length).toBeLessThanOrEqual(128);
    // The door is open to those who have a key, and to those who come for one.
    const asked = await fetch(`${address.origin}/api/1/who`, { headers: { cookie } });
    expect(await asked.json()).toEqual({ who: "Tablet" });
    expect((await fetch(`${address.origin}/let-in`)).status).toBe(200);
  });

  it("holds a connection no longer than the deadline, whatever it has sent", async () => {
    const strangers = { deadline: 200, most: 128, mostOfOne: 16 };
    const { addresses } = await bench.openToBoatNetwork({ encryption: { kind: "none" }, strangers });
    const address = new URL(addresses[0]!);
    const held = [halfBody, refusedBody, halfHead, () => ""].map((text) => half(address, text(address)));
    await waitFor(() => held.every(({ ended }) => ended));
  });

  it("cannot hold a listener of https by a silent handshake", async () => {
    const authority = makeAuthority(Date.now());
    const strangers = { deadline: 200, most: 128, mostOfOne: 16 };
    const { addresses } = await bench.openToBoatNetwork({ encryption: { kind: "authority", authority }, strangers });
    const address = new URL(addresses[0]!);
    const held = ["", "\x16\x03\x01"].map((text) => half(address, text));
    await waitFor(() => held.every(({ ended }) => ended));
  });

  it("from one address only makes room among its own", async () => {
    const strangers = { deadline: 3_600_000, most: 128, mostOfOne: 4 };
    const { addresses } = await bench.openToBoatNetwork({ encryption: { kind: "none" }, strangers });
    const address = new URL(addresses[0]!);
    const quiet = half(address, halfHead(address), "127.0.1.1");
    const loud = Array.from({ length: 40 }, () => half(address, halfHead(address), "127.0.1.2"));
    await waitFor(() => loud.filter(({ ended }) => ended).length >= 36);
    expect([quiet.ended, loud.filter(({ ended }) => !ended).length]).toEqual([false, 4]);
  });
});

it.skipIf(process.platform !== "linux")("a device with a key may send for longer than the deadline", async () => {
  // Long enough that even a busy machine reads a key in it.
  const strangers = { deadline: 3_000, most: 128, mostOfOne: 16 };
  const { addresses, code } = await bench.openToBoatNetwork({ encryption: { kind: "none" }, strangers });
  const address = new URL(addresses[0]!);
  const cookie = await letIn(address.origin, code);
  // A stranger who came after has been let go: more than a deadline has passed in the middle of the body.
  let stranger: { ended: boolean } | undefined;
  const body = new ReadableStream({
    async pull(stream) {
      if (stranger === undefined) {
        stream.enqueue(new TextEncoder().encode("first "));
        stranger = half(address, "");
        await waitFor(() => stranger!.ended);
      } else {
        stream.enqueue(new TextEncoder().encode("second"));
        stream.close();
      }
    },
  });
  const init = { method: "POST", headers: { cookie, "content-type": "text/plain" }, body, duplex: "half" };
  expect(await (await fetch(`${address.origin}/api/1/length`, init as RequestInit)).json()).toEqual({ length: 12 });
});
