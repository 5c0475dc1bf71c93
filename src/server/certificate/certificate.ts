import { createHash, type KeyObject, randomBytes, sign } from "node:crypto";
import { bits, explicit, implicit, integer, moment, octets, oid, sequence, set, tagged, utf8, yes } from "./der.ts";

// X.509 version 3, signed with ECDSA over P-256 and SHA-256.
// Source: RFC 5280 (profile), RFC 5758 (signature algorithm); recalled, held to Node and OpenSSL by the tests.

const ECDSA_SHA256 = sequence(oid("1.2.840.10045.4.3.2"));
const DAY = 24 * 3_600_000;

/** What a certificate says. */
export interface Contents {
  readonly subject: string;
  readonly issuer: string;
  readonly publicKey: KeyObject;
  readonly issuerPublicKey: KeyObject;
  /** From a day before (clocks differ) until so many days after. Ms since 1970. */
  readonly now: number;
  readonly days: number;
  readonly extensions: readonly Buffer[];
}

/** Signs a certificate with the issuer's key; PEM. */
export function certificate(contents: Contents, issuerKey: KeyObject): string {
  const serial = randomBytes(16);
  // Positive, and never zero.
  serial[0] = (serial[0]! & 0x7f) | 0x40;
  const body = sequence(
    explicit(0, integer(Buffer.from([2]))),
    integer(serial),
    ECDSA_SHA256,
    name(contents.issuer),
    sequence(moment(contents.now - DAY), moment(contents.now + contents.days * DAY)),
    name(contents.subject),
    contents.publicKey.export({ type: "spki", format: "der" }),
    explicit(
      3,
      sequence(
        extension("2.5.29.14", false, octets(keyId(contents.publicKey))),
        extension("2.5.29.35", false, sequence(implicit(0, keyId(contents.issuerPublicKey)))),
        ...contents.extensions,
      ),
    ),
  );
  const whole = sequence(body, ECDSA_SHA256, bits(sign("sha256", body, { key: issuerKey, dsaEncoding: "der" })));
  const lines = whole.toString("base64").replace(/.{64}/g, "$&\n");
  return `-----BEGIN CERTIFICATE-----\n${lines.trimEnd()}\n-----END CERTIFICATE-----\n`;
}

function extension(id: string, critical: boolean, value: Buffer): Buffer {
  return sequence(oid(id), ...(critical ? [yes] : []), octets(value));
}

/** May sign certificates, but none that signs further ones. */
export const mayIssue: Buffer = extension("2.5.29.19", true, sequence(yes, integer(Buffer.from([0]))));
/** keyCertSign, the sixth bit. */
export const signsCertificates: Buffer = extension("2.5.29.15", true, bits(Buffer.from([0x04]), 2));
export const mayNotIssue: Buffer = extension("2.5.29.19", true, sequence());
/** digitalSignature, the first bit. */
export const signsMessages: Buffer = extension("2.5.29.15", true, bits(Buffer.from([0x80]), 7));
export const forServers: Buffer = extension("2.5.29.37", false, sequence(oid("1.3.6.1.5.5.7.3.1")));

/** The names and IPv4 addresses a server answers to. */
export function answersTo(addresses: readonly string[], dnsNames: readonly string[] = []): Buffer {
  return extension(
    "2.5.29.17",
    false,
    sequence(
      ...addresses.map((address) => implicit(7, Buffer.from(address.split(".").map(Number)))),
      ...dnsNames.map((dns) => implicit(2, Buffer.from(dns, "ascii"))),
    ),
  );
}

/** Whatever this authority signs counts only for these IPv4 networks, and for no name at all. */
export function onlyNetworks(networks: readonly (readonly [address: string, mask: string])[]): Buffer {
  const four = (dotted: string) => Buffer.from(dotted.split(".").map(Number));
  const permitted = networks.map(([address, mask]) =>
    sequence(implicit(7, Buffer.concat([four(address), four(mask)]))),
  );
  // The empty name stands for every name.
  const excluded = sequence(implicit(2, Buffer.alloc(0)));
  return extension("2.5.29.30", true, sequence(tagged(0xa0, ...permitted), tagged(0xa1, excluded)));
}

function name(commonName: string): Buffer {
  return sequence(set(sequence(oid("2.5.4.3"), utf8(commonName))));
}

/** RFC 5280 4.2.1.2, method 1: SHA-1 of the public key's bits (a name, not a proof). */
function keyId(key: KeyObject): Buffer {
  const { x, y } = key.export({ format: "jwk" });
  const point = Buffer.concat([Buffer.from([4]), Buffer.from(x!, "base64url"), Buffer.from(y!, "base64url")]);
  return createHash("sha1").update(point).digest();
}
