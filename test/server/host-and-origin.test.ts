import { describe, expect, it } from "vitest";
import { atComputer, benchInProcess, own, refused } from "./in-process.ts";

const topic = (api: import("hono").Hono<import("../../src/server/request-context.ts").BenchEnv>) => {
  api.get("/echo", (c) => c.json({ who: c.get("by").who }));
  api.post("/echo", (c) => c.json({ done: true }));
};

describe("a foreign Host is refused", () => {
  const { app, ask } = benchInProcess([topic]);
  it.each([
    "evil.example:4711",
    "evil.example",
    "127.0.0.1",
    "127.0.0.1:4712",
    "localhost.evil.example:4711",
    "127.0.0.1.evil.example:4711",
    "[::1]:4711",
    "0.0.0.0:4711",
    "192.168.7.20:4711",
    "2130706433:4711",
  ])("Host %s", async (host) => {
    const answer = await app.request(`${own}/api/1/echo`, { headers: { host } }, atComputer);
    expect(await refused(answer)).toMatch(/^403 Host: /);
  });
  it("even when the header is right but the request line names another", async () => {
    const answer = await app.request(
      "http://evil.example:4711/api/1/echo",
      { headers: { host: "127.0.0.1:4711" } },
      atComputer,
    );
    expect(await refused(answer)).toMatch(/^403 Host: "evil.example:4711"/);
  });
  it("and its own are answered", async () => {
    expect((await ask("/api/1/echo")).status).toBe(200);
    expect((await app.request("http://localhost:4711/api/1/echo", {}, atComputer)).status).toBe(200);
    expect((await app.request(`${own}/api/1/echo`, { headers: { host: "LOCALHOST:4711" } }, atComputer)).status).toBe(
      200,
    );
  });
  it("as many as one, whatever it names: none and two are refused, also two of its own", async () => {
    const asked = (...rawHeaders: string[]) =>
      app.request(`${own}/api/1/echo`, {}, { ...atComputer, incoming: { rawHeaders } as never });
    expect((await asked("Accept", "*/*", "HOST", "127.0.0.1:4711")).status).toBe(200);
    expect(await refused(await asked("Accept", "127.0.0.1:4711"))).toMatch(/^403 Host: /);
    for (const second of ["127.0.0.1:4711", "evil.example:4711"])
      expect(await refused(await asked("Host", "127.0.0.1:4711", "host", second))).toBe(
        `403 Host: "127.0.0.1:4711, ${second}"; the bench answers only to 127.0.0.1:4711, localhost:4711`,
      );
  });
  it("a request without a listener's word is refused", async () => {
    expect(await refused(await app.request(`${own}/api/1/echo`))).toMatch(/^403 listener/);
  });
});

describe("a foreign Origin is refused", () => {
  const { ask } = benchInProcess([topic]);
  it.each([
    "http://evil.example",
    "https://127.0.0.1:4711",
    "http://127.0.0.1:4712",
    "http://127.0.0.1",
    "http://localhost:4711",
    "null",
    "http://127.0.0.1:4711.evil.example",
    "",
  ])("Origin %j", async (origin) => {
    for (const method of ["GET", "POST", "PUT", "DELETE"]) {
      expect(await refused(await ask("/api/1/echo", { method, headers: { origin } }))).toMatch(/^403 Origin/);
    }
  });
  it("its own is answered", async () => {
    expect((await ask("/api/1/echo", { method: "POST", headers: { origin: own } })).status).toBe(200);
  });
  it.each(["cross-site", "same-site"])(
    "Sec-Fetch-Site %s is refused for records and for parts of the app",
    async (site) => {
      const headers = { "sec-fetch-site": site };
      for (const path of ["/api/1/echo", "/assets/index.js", "/"]) {
        expect(await refused(await ask(path, { headers }))).toMatch(/^403 Sec-Fetch-Site/);
      }
      const navigates = { ...headers, "sec-fetch-mode": "navigate", "sec-fetch-dest": "document" };
      expect(await refused(await ask("/api/1/echo", { headers: navigates }))).toMatch(/^403 Sec-Fetch-Site/);
      expect(await refused(await ask("/", { method: "POST", headers: navigates }))).toMatch(/^403 Sec-Fetch-Site/);
      expect(await refused(await ask("/", { headers: { ...navigates, "sec-fetch-dest": "iframe" } }))).toMatch(/^403/);
    },
  );
  it("a link from elsewhere may open a page", async () => {
    const headers = { "sec-fetch-site": "cross-site", "sec-fetch-mode": "navigate", "sec-fetch-dest": "document" };
    // 404 says it got past the guard: this bench has no built app.
    expect(await refused(await ask("/rig", { headers }))).toMatch(/^404 dist\/web/);
  });
  it.each(["PATCH", "OPTIONS", "TRACE2", "PROPFIND"])("method %s is refused", async (method) => {
    expect(await refused(await ask("/api/1/echo", { method }))).toMatch(/^405 method/);
  });
});

describe("every answer carries the security headers", () => {
  const { ask, askOverBoat } = benchInProcess([topic]);
  it.each([
    ["an answer", () => ask("/api/1/echo")],
    ["a refusal", () => ask("/api/1/nothing")],
    ["a foreign origin", () => ask("/api/1/echo", { headers: { origin: "http://evil.example" } })],
    ["a page without a key", () => askOverBoat("/", { headers: { accept: "text/html" } })],
    ["the code page", () => askOverBoat("/let-in")],
  ])("%s", async (_name, get) => {
    const { headers } = await get();
    const policy = headers.get("content-security-policy")!;
    expect(policy).toContain("default-src 'none'");
    expect(policy).toContain("script-src 'self';");
    expect(policy).toContain("frame-ancestors 'none'");
    expect(policy).not.toMatch(/unsafe|https?:|\*/);
    expect(headers.get("x-content-type-options")).toBe("nosniff");
    expect(headers.get("x-frame-options")).toBe("DENY");
    expect(headers.get("referrer-policy")).toBe("same-origin");
    expect(headers.get("cross-origin-resource-policy")).toBe("same-origin");
    expect(headers.get("cross-origin-opener-policy")).toBe("same-origin");
    expect(headers.get("access-control-allow-origin")).toBeNull();
  });
});
