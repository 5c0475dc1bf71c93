import { execFileSync, spawnSync } from "node:child_process";
import { X509Certificate } from "node:crypto";
import { mkdtempSync, readFileSync, statSync, writeFileSync } from "node:fs";
import { createServer } from "node:https";
import type { AddressInfo } from "node:net";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { connect } from "node:tls";
import { describe, expect, it } from "vitest";
import { authorityIn, certify, makeAuthority } from "../../src/server/certificate/authority.ts";
import { integer, moment, oid, tagged } from "../../src/server/certificate/der.ts";

const now = Date.now();
const OPENSSL = "openssl";
const hasOpenssl = spawnSync(OPENSSL, ["version"]).status === 0;
const day = 24 * 3_600_000;
const folder = mkdtempSync(join(tmpdir(), "authority-"));

describe("DER", () => {
  it("an object identifier is written as X.690 8.19.5 has it (recalled: 2.100.3 is 06 03 81 34 03)", () => {
    // X.690's own example is {joint-iso-itu-t 999 3} = 06 03 88 37 03.
    expect(oid("2.999.3").toString("hex")).toBe("0603883703");
    expect(oid("2.100.3").toString("hex")).toBe("0603813403");
    expect(oid("1.2.840.113549").toString("hex")).toBe("06062a864886f70d");
  });
  it("numbers are shortest and never negative", () => {
    expect(integer(Buffer.from([0, 0, 1])).toString("hex")).toBe("020101");
    expect(integer(Buffer.from([0x80])).toString("hex")).toBe("02020080");
    expect(integer(Buffer.from([0])).toString("hex")).toBe("020100");
  });
  it("lengths of 127, 128 and 65536 bytes", () => {
    expect(tagged(4, Buffer.alloc(127)).subarray(0, 2).toString("hex")).toBe("047f");
    expect(tagged(4, Buffer.alloc(128)).subarray(0, 3).toString("hex")).toBe("048180");
    expect(tagged(4, Buffer.alloc(65_536)).subarray(0, 5).toString("hex")).toBe("0483010000");
  });
  it("years from 2050 on are written in full (RFC 5280 4.1.2.5)", () => {
    expect(moment(Date.UTC(2049, 11, 31, 23, 59, 59)).toString("latin1")).toBe("\x17\x0d491231235959Z");
    expect(moment(Date.UTC(2050, 0, 1)).toString("latin1")).toBe("\x18\x0f20500101000000Z");
  });
});

describe("the boat computer's own authority", () => {
  const authority = makeAuthority(now);
  it("is read by Node's X.509 reader as an authority that signed itself", () => {
    const read = new X509Certificate(authority.cert);
    expect(read.ca).toBe(true);
    expect(read.verify(read.publicKey)).toBe(true);
    expect(Date.parse(read.validTo)).toBeGreaterThan(now + 3_650 * day);
  });
  it("certifies the bench's addresses, and no others", () => {
    const read = new X509Certificate(certify(authority, ["192.168.7.20", "10.0.0.4"], now).cert);
    expect(read.checkIP("192.168.7.20")).toBe("192.168.7.20");
    expect(read.checkIP("10.0.0.4")).toBe("10.0.0.4");
    expect(read.checkIP("192.168.7.21")).toBeUndefined();
    expect(read.ca).toBe(false);
    expect(read.checkIssued(new X509Certificate(authority.cert))).toBe(true);
    expect(read.verify(new X509Certificate(authority.cert).publicKey)).toBe(true);
  });
  // What browsers ask of a certificate beside the chain: the names in its alternative names, 398 days at most, servers
  // as its use, a key of a kind and a signature they take (CA/Browser Forum Baseline Requirements 6.3.2 and 7.1, recalled).
  it("has what a browser asks of a server's certificate", () => {
    const pem = certify(authority, ["192.168.7.20"], now).cert;
    const read = new X509Certificate(pem);
    const [from, to] = [Date.parse(read.validFrom), Date.parse(read.validTo)];
    expect((to - from) / day).toBeLessThan(398);
    expect((to - from) / day).toBeGreaterThan(365);
    expect(from).toBeLessThan(now - 3_600_000);
    expect(read.subjectAltName).toBe("IP Address:192.168.7.20");
    expect(read.keyUsage).toEqual(["1.3.6.1.5.5.7.3.1"]);
    expect(read.publicKey.asymmetricKeyDetails).toEqual({ namedCurve: "prime256v1" });
    expect(BigInt(`0x${read.serialNumber}`)).toBeGreaterThan(2n ** 64n);
    expect(read.serialNumber.length).toBeLessThanOrEqual(40);
    expect(new X509Certificate(certify(authority, ["192.168.7.20"], now).cert).serialNumber).not.toBe(
      read.serialNumber,
    );
    // The authority comes with it, so that a device needs to know only that.
    expect(pem.match(/BEGIN CERTIFICATE/g)).toHaveLength(2);
    expect(pem.endsWith(authority.cert)).toBe(true);
  });
  it.skipIf(!hasOpenssl)("says the same in OpenSSL's words, critical where it must be", () => {
    const text = (pem: string) => execFileSync(OPENSSL, ["x509", "-noout", "-text"], { input: pem, encoding: "utf8" });
    const leaf = text(certify(authority, ["192.168.7.20"], now).cert).replace(/\s+/g, " ");
    expect(leaf).toContain("Version: 3 (0x2)");
    expect(leaf).toContain("Signature Algorithm: ecdsa-with-SHA256");
    expect(leaf).toContain("X509v3 Basic Constraints: critical CA:FALSE");
    expect(leaf).toContain("X509v3 Key Usage: critical Digital Signature X509v3");
    expect(leaf).toContain("X509v3 Extended Key Usage: TLS Web Server Authentication");
    expect(leaf).toContain("X509v3 Subject Alternative Name: IP Address:192.168.7.20");
    const ca = text(authority.cert).replace(/\s+/g, " ");
    expect(ca).toContain("X509v3 Basic Constraints: critical CA:TRUE, pathlen:0");
    expect(ca).toContain("X509v3 Key Usage: critical Certificate Sign X509v3");
    expect(ca).toContain("X509v3 Name Constraints: critical Permitted: IP:10.0.0.0/255.0.0.0");
    // The one is known by the other's key, as a browser looks for it.
    const id = /Subject Key Identifier: ([0-9A-F:]+)/.exec(ca)![1];
    expect(leaf).toContain(`Authority Key Identifier: ${id}`);
  });
  it.skipIf(!hasOpenssl)("openssl verifies it, strictly", () => {
    const [ca, leaf] = [join(folder, "ca.pem"), join(folder, "leaf.pem")];
    writeFileSync(ca, authority.cert);
    writeFileSync(leaf, certify(authority, ["192.168.7.20"], now).cert);
    const answer = execFileSync(
      OPENSSL,
      ["verify", "-x509_strict", "-purpose", "sslserver", "-verify_ip", "192.168.7.20", "-CAfile", ca, leaf],
      { encoding: "utf8" },
    );
    expect(answer).toContain("leaf.pem: OK");
  });
  it.each([
    ["a private address", ["127.0.0.1", "192.168.7.20"], [], "permitted subtree violation"],
    ["a public address", ["8.8.8.8"], [], "permitted subtree violation"],
    ["a name", ["192.168.7.20"], ["bank.example"], "excluded subtree violation"],
  ])("its signature counts for nothing beyond private networks: %s", async (_name, addresses, names, why) => {
    expect(await handshake(authority.cert, certify(authority, addresses, now, names))).toMatch(why);
  });
  it("a device that trusts it connects without a warning", async () => {
    expect(await handshake(authority.cert, certify(authority, ["192.168.7.20"], now))).toBe("trusted");
  });
  it("a device that trusts another does not", async () => {
    expect(await handshake(makeAuthority(now).cert, certify(authority, ["192.168.7.20"], now))).toMatch(/certificate/);
  });
  it("is kept for the next time, its key readable by this user only, and made anew when it has run out", () => {
    const first = authorityIn(folder, now);
    expect(authorityIn(folder, now + 3_000 * day).fingerprint).toBe(first.fingerprint);
    if (process.platform !== "win32") expect(statSync(join(folder, "authority.pem")).mode & 0o777).toBe(0o600);
    const later = authorityIn(folder, now + 3_700 * day);
    expect(later.fingerprint).not.toBe(first.fingerprint);
    expect(readFileSync(join(folder, "authority.pem"), "utf8")).toContain(later.cert);
  });
  it("a damaged file is told", () => {
    const other = mkdtempSync(join(tmpdir(), "authority-"));
    writeFileSync(join(other, "authority.pem"), "-----BEGIN CERTIFICATE-----\nAAAA\n");
    expect(() => authorityIn(other, now)).toThrow(/damaged; a key and a certificate in PEM/);
  });
});

/** A real TLS handshake, the address checked as a browser checks it for 192.168.7.20: "trusted" or why not. */
function handshake(ca: string, leaf: { key: string; cert: string }): Promise<string> {
  return new Promise((done) => {
    const server = createServer(leaf, (_request, response) => response.end());
    server.listen(0, "127.0.0.1", () => {
      const socket = connect({
        port: (server.address() as AddressInfo).port,
        host: "127.0.0.1",
        ca,
        checkServerIdentity: (_host, peer) =>
          new X509Certificate(peer.raw).checkIP("192.168.7.20") ? undefined : new Error("another address"),
      });
      const end = (what: string) => {
        socket.destroy();
        server.close();
        done(what);
      };
      socket.on("secureConnect", () => end("trusted"));
      socket.on("error", (error) => end(error.message));
    });
  });
}
