import { mkdtempSync, readFileSync, statSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { Attempts, attemptRules } from "../../src/server/attempts.ts";
import { Devices } from "../../src/server/devices.ts";
import { codeRules, OneTimeCode } from "../../src/server/one-time-code.ts";
import { benchInProcess, boat, overBoat, refused } from "./in-process.ts";

const topic = (api: import("hono").Hono<import("../../src/server/request-context.ts").BenchEnv>) => {
  api.get("/echo", (c) => c.json({ who: c.get("by").who }));
};
const form = (fields: Record<string, string>, more: Record<string, string> = {}): RequestInit => ({
  method: "POST",
  headers: { "content-type": "application/x-www-form-urlencoded", origin: boat, ...more },
  body: new URLSearchParams(fields).toString(),
});
const cookieOf = (answer: Response) => answer.headers.get("set-cookie")!.split(";")[0]!;

describe("without a key the boat's network is shown nothing", () => {
  const { askOverBoat } = benchInProcess([topic]);
  it.each(["/api/1/echo", "/assets/index.js", "/manifest.webmanifest", "/sw.js", "/api/1/boat-network"])(
    "%s",
    async (path) => {
      expect(await refused(await askOverBoat(path))).toMatch(/^401 device/);
      const cookie = "rodebench-device=AAAAAAAAAAAA.AAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAA";
      expect(await refused(await askOverBoat(path, { headers: { cookie } }))).toMatch(/^401 device/);
    },
  );
  it("a page is sent to where the code is given", async () => {
    const answer = await askOverBoat("/rig?depth=8", { headers: { accept: "text/html,*/*" } });
    expect([answer.status, answer.headers.get("location")]).toEqual([303, "/let-in"]);
  });
  it("the code page holds no script and names its one style by its hash", async () => {
    const answer = await askOverBoat("/let-in");
    expect(await answer.text()).not.toMatch(/<script|\son[a-z]+=|https?:/i);
    expect(answer.headers.get("content-security-policy")).toMatch(/style-src 'self' 'sha256-[A-Za-z0-9+/=]+';/);
  });
  it("the computer itself has no such page and needs no key", async () => {
    const { ask } = benchInProcess([topic]);
    expect(await refused(await ask("/let-in"))).toMatch(/^404 address/);
    expect(await (await ask("/api/1/echo")).json()).toEqual({ who: "this computer" });
  });
});

describe("a code lets one device in", () => {
  it("and its key then opens the records, under the device's name", async () => {
    const { network, askOverBoat } = benchInProcess([topic]);
    const { code } = network.code.issue();
    const answer = await askOverBoat(
      "/let-in",
      form({ code: `${code.slice(0, 4)} ${code.slice(4)}`, name: "  Foredeck\nphone " }),
    );
    expect([answer.status, answer.headers.get("location")]).toEqual([303, "/"]);
    expect(answer.headers.get("set-cookie")).toMatch(/; Max-Age=15552000; Path=\/; HttpOnly; SameSite=Strict$/);
    const headers = { cookie: cookieOf(answer) };
    expect(await (await askOverBoat("/api/1/echo", { headers })).json()).toEqual({ who: "Foredeck phone" });
    // Used up: a second device needs a second code.
    expect((await askOverBoat("/let-in", form({ code, name: "Other" }))).status).toBe(401);
    expect(network.devices.list()).toHaveLength(1);
  });
  it("under https the cookie is Secure", async () => {
    const { network, app } = benchInProcess([topic]);
    const { code } = network.code.issue();
    const answer = await app.request(
      "https://192.168.7.20:4711/let-in",
      form({ code, name: "Tablet" }, { origin: "https://192.168.7.20:4711" }),
      { ...overBoat, scheme: "https" },
    );
    expect(answer.headers.get("set-cookie")).toContain("; Secure");
  });
  it("a withdrawn key opens nothing, from the next request on", async () => {
    const { network, ask, askOverBoat } = benchInProcess([topic]);
    const { code } = network.code.issue();
    const headers = { cookie: cookieOf(await askOverBoat("/let-in", form({ code, name: "Phone" }))) };
    expect((await askOverBoat("/api/1/echo", { headers })).status).toBe(200);
    const listed = (await (await ask("/api/1/boat-network")).json()) as { devices: { id: string; name: string }[] };
    expect(listed.devices.map((device) => device.name)).toEqual(["Phone"]);
    expect(JSON.stringify(listed)).not.toMatch(/digest|key"/i);
    expect((await ask(`/api/1/boat-network/devices/${listed.devices[0]!.id}`, { method: "DELETE" })).status).toBe(200);
    expect(await refused(await askOverBoat("/api/1/echo", { headers }))).toMatch(/^401 device/);
    expect(
      await refused(await ask(`/api/1/boat-network/devices/${listed.devices[0]!.id}`, { method: "DELETE" })),
    ).toMatch(/^404/);
  });
  it("a device can neither list nor withdraw devices, nor make codes, nor close the network", async () => {
    const { network, askOverBoat } = benchInProcess([topic]);
    const { code } = network.code.issue();
    const headers = { cookie: cookieOf(await askOverBoat("/let-in", form({ code, name: "Phone" }))) };
    const id = network.devices.list()[0]!.id;
    for (const [method, path] of [
      ["GET", "/api/1/boat-network"],
      ["DELETE", "/api/1/boat-network"],
      ["POST", "/api/1/boat-network/code"],
      ["DELETE", `/api/1/boat-network/devices/${id}`],
    ] as const) {
      expect(await refused(await askOverBoat(path, { method, headers }))).toMatch(/^403 boat network/);
    }
    expect(network.devices.list()).toHaveLength(1);
  });
  it("another site's form cannot give a code, nor can another type of body", async () => {
    const { network, askOverBoat } = benchInProcess([topic]);
    const { code } = network.code.issue();
    const foreign = form({ code, name: "x" }, { origin: "http://evil.example" });
    expect(await refused(await askOverBoat("/let-in", foreign))).toMatch(/^403 Origin/);
    const json = {
      method: "POST",
      headers: { "content-type": "application/json" },
      body: JSON.stringify({ code, name: "x" }),
    };
    expect(await refused(await askOverBoat("/let-in", json))).toMatch(/^415/);
    expect(await refused(await askOverBoat("/let-in", form({ code, name: "x".repeat(5000) })))).toMatch(/^413/);
    expect((await askOverBoat("/let-in", form({ code, name: " " }))).status).toBe(400);
    expect((await askOverBoat("/let-in", form({ code, name: "still good" }))).status).toBe(303);
  });
  it("a name is shown as text, never as markup", async () => {
    const { network, askOverBoat } = benchInProcess();
    network.code.issue();
    const text = await (await askOverBoat("/let-in", form({ code: "<script>", name: `"><b onclick=x>` }))).text();
    expect(text).not.toMatch(/<script>|<b /);
    expect(text).toContain('value="&#34;&#62;&#60;b onclick=x&#62;"');
  });
});

describe("a code cannot be guessed", () => {
  it("eight digits, each code another", () => {
    const code = new OneTimeCode(() => 0);
    const seen = new Set(Array.from({ length: 200 }, () => code.issue().code));
    for (const one of seen) expect(one).toMatch(/^\d{8}$/);
    // Two equal among 200 of 10^8 has a chance of 2e-4.
    expect(seen.size).toBeGreaterThanOrEqual(199);
  });
  it("five wrong tries end it", () => {
    const code = new OneTimeCode(() => 0);
    const { code: right } = code.issue();
    const wrong = right === "00000000" ? "00000001" : "00000000";
    const kinds = Array.from({ length: codeRules.attempts }, () => code.enter(wrong));
    expect(kinds).toEqual([4, 3, 2, 1].map((left) => ({ kind: "wrong", left })).concat([{ kind: "noCode" } as never]));
    expect(code.enter(right)).toEqual({ kind: "noCode" });
  });
  it("it runs out after ten minutes, not before", () => {
    let now = 0;
    const code = new OneTimeCode(() => now);
    const first = code.issue().code;
    now = codeRules.lifetime;
    expect(code.enter(first)).toEqual({ kind: "noCode" });
    const second = code.issue().code;
    now += codeRules.lifetime - 1;
    expect(code.enter(second)).toEqual({ kind: "letIn" });
    expect(code.enter(second)).toEqual({ kind: "noCode" });
  });
  it("a new code ends the one before", () => {
    const code = new OneTimeCode(() => 0);
    const first = code.issue().code;
    let second = code.issue().code;
    while (second === first) second = code.issue().code;
    expect(code.enter(first).kind).toBe("wrong");
    expect(code.enter(second).kind).toBe("letIn");
  });
  it("an address that tried ten times waits, with or without a live code", async () => {
    const { network, askOverBoat, clock } = benchInProcess();
    for (let i = 0; i < attemptRules.most; i++) {
      expect((await askOverBoat("/let-in", form({ code: "x", name: "n" }))).status).toBe(401);
    }
    const { code } = network.code.issue();
    const late = await askOverBoat("/let-in", form({ code, name: "n" }));
    expect([late.status, Number(late.headers.get("retry-after"))]).toEqual([429, attemptRules.window / 1000]);
    // Another address is not held up by it.
    const other = { ...overBoat, from: "192.168.7.34" };
    expect((await askOverBoat("/let-in", form({ code, name: "n" }), other)).status).toBe(303);
    clock.ms += attemptRules.window + 1;
    const again = network.code.issue().code;
    expect((await askOverBoat("/let-in", form({ code: again, name: "n" }))).status).toBe(303);
  });
  it("tries are counted in bounded memory", () => {
    const tries = new Attempts(() => 0);
    for (let i = 0; i < attemptRules.addresses; i++) expect(tries.note(`a${i}`)).toBe(0);
    expect(tries.note("one more")).toBeGreaterThan(0);
  });
});

describe("keys are kept hashed, and survive a restart", () => {
  const folder = mkdtempSync(join(tmpdir(), "devices-"));
  it("the file holds no key, and only its owner may read it", () => {
    const path = join(folder, "a", "devices.json");
    const devices = new Devices(path, () => 5);
    const { token, device } = devices.add("Phone");
    const text = readFileSync(path, "utf8");
    expect(text).not.toContain(token.split(".")[1]!);
    expect(Buffer.from(token.split(".")[1]!, "base64url")).toHaveLength(32);
    if (process.platform !== "win32") expect(statSync(path).mode & 0o777).toBe(0o600);
    const after = new Devices(path, () => 6);
    expect(after.recognise(token)?.id).toBe(device.id);
    expect(after.withdraw(device.id)).toBe(true);
    expect(new Devices(path, () => 7).recognise(token)).toBeUndefined();
  });
  it("a key withdrawn by another program counts from the next request on", () => {
    const path = join(folder, "shared.json");
    const running = new Devices(path, () => 5);
    const { token, device } = running.add("Phone");
    expect(running.recognise(token)?.name).toBe("Phone");
    expect(new Devices(path, () => 6).withdraw(device.id)).toBe(true);
    expect(running.recognise(token)).toBeUndefined();
    expect(running.list()).toEqual([]);
  });
  it("no near miss of a token is recognised", () => {
    const devices = new Devices("", () => 0);
    const { token } = devices.add("Phone");
    const [id, key] = token.split(".") as [string, string];
    const other = devices.add("Tablet").token.split(".") as [string, string];
    for (const near of [
      "",
      ".",
      id,
      `${id}.`,
      `.${key}`,
      `${id}.${key}.`,
      `${id}.${key}x`,
      `${id}.${key.slice(1)}`,
      `${id}.${other[1]}`,
      `${other[0]}.${key}`,
    ]) {
      expect(devices.recognise(near), near).toBeUndefined();
    }
    expect(devices.recognise(token)?.name).toBe("Phone");
  });
  it("a key not used for half a year lets nobody in; one in use goes on", () => {
    const day = 24 * 3_600_000;
    let now = 0;
    const devices = new Devices("", () => now);
    const { token } = devices.add("Phone");
    now = 170 * day;
    expect(devices.recognise(token)?.name).toBe("Phone");
    now = 340 * day;
    expect(devices.recognise(token)?.name).toBe("Phone");
    now = 521 * day;
    expect(devices.recognise(token)).toBeUndefined();
  });
  it("a damaged file is told, not taken for an empty one", () => {
    const path = join(folder, "damaged.json");
    writeFileSync(path, "{");
    expect(() => new Devices(path, () => 0)).toThrow(/damaged; a rodebench\/devices@1 file/);
    writeFileSync(path, JSON.stringify({ format: "rodebench/devices@1", devices: [{ id: "x" }] }));
    expect(() => new Devices(path, () => 0)).toThrow(/damaged/);
  });
});
