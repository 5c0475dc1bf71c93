import { createPrivateKey, createPublicKey, generateKeyPairSync, X509Certificate } from "node:crypto";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { InputError } from "../../quantity/index.ts";
import { writePrivately } from "../private-file.ts";
import {
  answersTo,
  certificate,
  forServers,
  mayIssue,
  mayNotIssue,
  onlyNetworks,
  signsCertificates,
  signsMessages,
} from "./certificate.ts";

/** This computer's own certificate authority: devices that trust it reach the bench over https. */
export interface Authority {
  /** PEM; public, to be put on each device. */
  readonly cert: string;
  /** SHA-256 of the certificate, to be compared on the device: "AB:CD:…". */
  readonly fingerprint: string;
  readonly key: string;
}

const TEN_YEARS = 3_652;
/** Browsers take 398 days at most, both ends counted; a day before now is among them. */
const LEAF_DAYS = 396;
const SUBJECT = "Rodebench on this boat's computer";

/** The private IPv4 networks; the authority can vouch for nothing else, should its key ever get out. */
const NETWORKS = [
  ["10.0.0.0", "255.0.0.0"],
  ["172.16.0.0", "255.240.0.0"],
  ["192.168.0.0", "255.255.0.0"],
  ["169.254.0.0", "255.255.0.0"],
] as const;

/**
 * The authority kept in a folder, made when there is none or it has run out. Its key is readable by this user only.
 * @param now milliseconds since 1970
 * @throws InputError when the file is damaged
 */
export function authorityIn(folder: string, now: number): Authority {
  const path = join(folder, "authority.pem");
  const kept = readKept(path);
  if (kept !== undefined && Date.parse(new X509Certificate(kept.cert).validTo) > now) return kept;
  const made = makeAuthority(now);
  writePrivately(path, made.key + made.cert);
  return made;
}

/** A new authority, kept nowhere. */
export function makeAuthority(now: number): Authority {
  const { publicKey, privateKey } = generateKeyPairSync("ec", { namedCurve: "prime256v1" });
  const cert = certificate(
    {
      subject: SUBJECT,
      issuer: SUBJECT,
      publicKey,
      issuerPublicKey: publicKey,
      now,
      days: TEN_YEARS,
      extensions: [mayIssue, signsCertificates, onlyNetworks(NETWORKS)],
    },
    privateKey,
  );
  return authorityOf(privateKey.export({ type: "pkcs8", format: "pem" }) as string, cert);
}

/** A certificate for the addresses the bench answers to, and its key; both PEM, made anew each time it is opened. */
export function certify(
  authority: Authority,
  addresses: readonly string[],
  now: number,
  dnsNames: readonly string[] = [],
): { key: string; cert: string } {
  const issuerKey = createPrivateKey(authority.key);
  const { publicKey, privateKey } = generateKeyPairSync("ec", { namedCurve: "prime256v1" });
  const cert = certificate(
    {
      subject: "rodebench",
      issuer: SUBJECT,
      publicKey,
      issuerPublicKey: createPublicKey(issuerKey),
      now,
      days: LEAF_DAYS,
      extensions: [mayNotIssue, signsMessages, forServers, answersTo(addresses, dnsNames)],
    },
    issuerKey,
  );
  return { key: privateKey.export({ type: "pkcs8", format: "pem" }) as string, cert: cert + authority.cert };
}

function authorityOf(key: string, cert: string): Authority {
  return { key, cert, fingerprint: new X509Certificate(cert).fingerprint256 };
}

function readKept(path: string): Authority | undefined {
  let text: string;
  try {
    text = readFileSync(path, "utf8");
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === "ENOENT") return undefined;
    throw new InputError(path, "cannot be read", "the file of this computer's certificate authority");
  }
  try {
    const at = text.indexOf("-----BEGIN CERTIFICATE-----");
    const authority = authorityOf(text.slice(0, at), text.slice(at));
    createPrivateKey(authority.key);
    return authority;
  } catch {
    throw new InputError(path, "damaged", "a key and a certificate in PEM; take it away to have new ones made");
  }
}
