import { get } from "node:https";
import { createConnection } from "node:net";
import { networkInterfaces } from "node:os";
import type { TLSSocket } from "node:tls";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { boatAddresses, isPrivate } from "../../src/server/boat-addresses.ts";
import { makeAuthority } from "../../src/server/certificate/authority.ts";
import { type Bench, openBench } from "../../src/server/index.ts";

const encryption = { kind: "none" } as const;
let bench: Bench;
let port: number;
let ended = 0;
let waiting = 0;

beforeAll(async () => {
  bench = await openBench({
    topics: [
      (api) => {
        api.get("/echo", (c) => c.json({ who: c.get("by").who }));
      },
    ],
    builtFolder: "/nowhere/at/all",
    devicesFile: "",
    port: 0,
    now: () => Date.now(),
    // A second loopback address stands for the boat's network: Linux binds any of 127/8.
    ownAddresses: () => ["127.0.0.2"],
    fault: () => undefined,
  });
  port = Number(new URL(bench.address).port);
});
afterAll(() => bench.close());

/** Sends bytes as they are and returns all that comes back. */
function raw(text: string, to = { host: "127.0.0.1", port }): Promise<string> {
  return new Promise((done, fail) => {
    let got = "";
    const socket = createConnection(to, () => socket.write(text));
    socket.setEncoding("utf8");
    socket.on("data", (part) => (got += part));
    socket.on("close", () => done(got));
    // Whoever is refused before all of it was sent may be cut off while sending: what was answered stands.
    socket.on("error", (error) => {
      if (got === "") fail(error);
    });
  });
}
const ask = (target: string, headers: string) =>
  raw(`GET ${target} HTTP/1.1\r\n${headers}\r\nConnection: close\r\n\r\n`);
const statusOf = (answer: string) => Number(/^HTTP\/1\.1 (\d{3})/.exec(answer)?.[1]);

describe("the loopback listener", () => {
  it("is bound to the loopback and nothing else", async () => {
    expect(bench.address).toBe(`http://127.0.0.1:${port}`);
    expect(statusOf(await ask("/api/1/echo", `Host: 127.0.0.1:${port}`))).toBe(200);
    for (const address of Object.values(networkInterfaces()).flat()) {
      if (address === undefined || address.internal || address.family !== "IPv4") continue;
      await expect(raw("GET / HTTP/1.1\r\n\r\n", { host: address.address, port })).rejects.toThrow(/ECONNREFUSED/);
    }
  });
  it.each([
    ["a foreign Host", "/api/1/echo", () => `Host: evil.example:${port}`, 403],
    ["a foreign Host without port", "/api/1/echo", () => "Host: evil.example", 403],
    ["its own name on another port", "/api/1/echo", () => "Host: 127.0.0.1:1", 403],
    ["no Host", "/api/1/echo", () => "Accept: */*", 400],
    ["two Hosts, the first right", "/api/1/echo", () => `Host: 127.0.0.1:${port}\r\nHost: evil.example`, 403],
    ["two Hosts, the second right", "/api/1/echo", () => `Host: evil.example\r\nHost: 127.0.0.1:${port}`, 403],
    ["a Host with an address hidden in it", "/api/1/echo", () => `Host: evil.example@127.0.0.1:${port}`, 400],
    ["another place in the request line", "http://evil.example/api/1/echo", () => `Host: 127.0.0.1:${port}`, 403],
    ["X-Forwarded-Host", "/api/1/echo", () => `Host: evil.example:${port}\r\nX-Forwarded-Host: 127.0.0.1:${port}`, 403],
    ["a foreign Origin", "/api/1/echo", () => `Host: 127.0.0.1:${port}\r\nOrigin: http://evil.example`, 403],
    ["a step up", "/../../etc/passwd", () => `Host: 127.0.0.1:${port}`, 400],
    ["a hidden step up", "/%2e%2e/%2e%2e/etc/passwd", () => `Host: 127.0.0.1:${port}`, 400],
    ["a hidden slash", "/..%2f..%2fetc/passwd", () => `Host: 127.0.0.1:${port}`, 400],
    ["a twice hidden slash", "/..%252f..%252fetc/passwd", () => `Host: 127.0.0.1:${port}`, 400],
    ["a backslash", "/..\\..\\etc\\passwd", () => `Host: 127.0.0.1:${port}`, 400],
    ["a NUL", "/index.html%00.js", () => `Host: 127.0.0.1:${port}`, 400],
    ["a broken escape", "/%zz", () => `Host: 127.0.0.1:${port}`, 400],
    ["an address too long", `/${"a".repeat(5000)}`, () => `Host: 127.0.0.1:${port}`, 400],
    // Hardly more than is read: a sender with much left to send would be cut off before it looks for an answer.
    ["headers too long", "/", () => `Host: 127.0.0.1:${port}\r\nX: ${"a".repeat((1 << 20) + (1 << 16))}`, 431],
  ])("%s is refused", async (_name, target, headers, status) => {
    const answer = await ask(target, headers());
    expect(statusOf(answer)).toBe(status);
    expect(answer).not.toMatch(/root:|"who"/);
    expect(answer).not.toMatch(/\bat .*\.(ts|js):\d+/);
  });
  it("plain noise is refused and the bench goes on", async () => {
    expect(statusOf(await raw("\x16\x03\x01\x02\x00\x01\x00\r\n\r\n"))).toBe(400);
    expect(statusOf(await ask("/api/1/echo", `Host: localhost:${port}`))).toBe(200);
  });
  it("without the built app one line tells the command that builds it", async () => {
    const answer = await fetch(`${bench.address}/`);
    expect([answer.status, await answer.json()]).toEqual([
      404,
      { error: { place: "dist/web", given: "", expected: "the built web app; `npm run build` makes it" } },
    ]);
  });
  it("a port in use is told in one line", async () => {
    const again = openBench({
      topics: [],
      builtFolder: "",
      devicesFile: "",
      port,
      now: Date.now,
      fault: () => undefined,
    });
    await expect(again).rejects.toThrow(
      `port ${port} of 127.0.0.1: in use already; a free port, such as --port 0 finds`,
    );
  });
});

describe("the boat's network", () => {
  it("only private addresses count as a boat's", () => {
    for (const address of ["10.0.0.1", "172.16.0.9", "172.31.255.1", "192.168.1.20", "169.254.3.4"])
      expect(isPrivate(address), address).toBe(true);
    for (const address of [
      "8.8.8.8",
      "172.15.0.1",
      "172.32.0.1",
      "192.167.1.1",
      "11.0.0.1",
      "0.0.0.0",
      "127.0.0.1",
      "1.2.3",
      "10.0.0.256",
      "::1",
      "",
    ])
      expect(isPrivate(address), address).toBe(false);
    expect(
      boatAddresses({
        lo: [{ family: "IPv4", internal: true, address: "127.0.0.1", netmask: "", mac: "", cidr: null }],
        wireless: [
          { family: "IPv4", internal: false, address: "192.168.7.20", netmask: "", mac: "", cidr: null },
          { family: "IPv6", internal: false, address: "fe80::1", netmask: "", mac: "", cidr: null, scopeid: 2 },
        ],
        mobile: [{ family: "IPv4", internal: false, address: "203.0.113.9", netmask: "", mac: "", cidr: null }],
      }),
    ).toEqual(["192.168.7.20"]);
  });
  it.each(["203.0.113.9", "0.0.0.0", "127.0.0.1", "10.255.255.254", "::", ""])(
    "%j is not opened: it is none of this computer's private addresses",
    async (address) => {
      await expect(bench.openToBoatNetwork({ encryption, address })).rejects.toThrow(
        /one of this computer's addresses on a private network: 127.0.0.2/,
      );
    },
  );
  it("without a private address it says so", async () => {
    const lonely = await openBench({
      topics: [],
      builtFolder: "",
      devicesFile: "",
      port: 0,
      now: Date.now,
      ownAddresses: () => [],
      fault: () => undefined,
    });
    await expect(lonely.openToBoatNetwork({ encryption })).rejects.toThrow(
      /no address on a private network; join the boat's network first/,
    );
    await lonely.close();
  });
  it.skipIf(process.platform !== "linux")(
    "opened, it asks for a code, lets a device in, and tells what it exposes",
    async () => {
      const opened = await bench.openToBoatNetwork({ encryption });
      expect(opened.exposes.join(" ")).toMatch(/read and change the whole book.*not encrypted/);
      const address = opened.addresses[0]!;
      expect((await fetch(`${address}/api/1/echo`)).status).toBe(401);
      const page = await fetch(`${address}/`, { headers: { accept: "text/html" } });
      expect(await page.text()).toContain("Let this device in");
      const body = new URLSearchParams({ code: opened.code, name: "Tablet" });
      const letIn = await fetch(`${address}/let-in`, { method: "POST", body, redirect: "manual" });
      expect(letIn.status).toBe(303);
      const cookie = letIn.headers.get("set-cookie")!.split(";")[0]!;
      expect(await (await fetch(`${address}/api/1/echo`, { headers: { cookie } })).json()).toEqual({ who: "Tablet" });
      // The boat's listener does not answer to the loopback's name, nor the other way round.
      const host = new URL(address);
      const crossed = await raw(`GET /api/1/echo HTTP/1.1\r\nHost: 127.0.0.1:${port}\r\nConnection: close\r\n\r\n`, {
        host: host.hostname,
        port: Number(host.port),
      });
      expect(statusOf(crossed)).toBe(403);
      expect(statusOf(await ask("/api/1/echo", `Host: ${host.host}`))).toBe(403);
      await expect(bench.openToBoatNetwork({ encryption })).rejects.toThrow(/open already/);
      // Closed again at the computer.
      expect(await (await fetch(`${bench.address}/api/1/boat-network`, { method: "DELETE" })).json()).toEqual({
        open: false,
      });
      await expect(fetch(`${address}/let-in`)).rejects.toThrow();
      expect((await fetch(`${bench.address}/api/1/boat-network/code`, { method: "POST" })).status).toBe(409);
    },
  );
});

describe("the boat's network over https", () => {
  it.skipIf(process.platform !== "linux")(
    "a device that fetched the authority asks it for the code, encrypted",
    async () => {
      const authority = makeAuthority(Date.now());
      const other = await openBench({
        topics: [],
        builtFolder: "",
        devicesFile: "",
        port: 0,
        now: Date.now,
        ownAddresses: () => ["127.0.0.3"],
        fault: () => undefined,
      });
      const opened = await other.openToBoatNetwork({ encryption: { kind: "authority", authority } });
      expect(opened.fingerprint).toBe(authority.fingerprint);
      expect(await (await fetch(`${other.address}/api/1/boat-network`)).json()).toMatchObject({
        fingerprint: authority.fingerprint,
      });
      expect(opened.exposes.join(" ")).toContain("What travels is encrypted; compare the fingerprint");
      const address = new URL(opened.addresses[0]!);
      expect(address.protocol).toBe("https:");
      // 127/8 is outside what the authority may vouch for, so this test looks at the certificate and not at its standing.
      const got = await new Promise<{ status: number; body: string; cert: string }>((done, fail) => {
        get(`${address.origin}/authority.crt`, { rejectUnauthorized: false }, (answer) => {
          let body = "";
          const cert = (answer.socket as TLSSocket).getPeerX509Certificate()!.subjectAltName!;
          answer.on("data", (part) => (body += part));
          answer.on("end", () => done({ status: answer.statusCode!, body, cert }));
        }).on("error", fail);
      });
      expect(got).toEqual({ status: 200, body: authority.cert, cert: "IP Address:127.0.0.3" });
      await other.close();
    },
  );
});

describe("stopping", () => {
  it("lets a request under way finish, and takes no new one", async () => {
    let finish = () => {};
    const finished = new Promise<void>((done) => {
      finish = done;
    });
    const other = await openBench({
      topics: [
        (api) =>
          api.get("/slow", async (c) => {
            waiting++;
            await finished;
            ended++;
            return c.json({ done: true });
          }),
      ],
      builtFolder: "",
      devicesFile: "",
      port: 0,
      now: Date.now,
      grace: 600_000,
      fault: () => undefined,
    });
    const under = fetch(`${other.address}/api/1/slow`);
    while (waiting === 0) await new Promise((done) => setTimeout(done, 5));
    const closed = other.close();
    finish();
    expect(await (await under).json()).toEqual({ done: true });
    await closed;
    expect(ended).toBe(1);
    await expect(fetch(`${other.address}/api/1/slow`)).rejects.toThrow();
  });
});
