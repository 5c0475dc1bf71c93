// Lists every package a production install brings, with its licence and size, and fails on a licence that was not
// agreed to, or when there are more packages or more megabytes than the project allows itself.
import { existsSync, lstatSync, readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";

const ALLOWED = ["0BSD", "Apache-2.0", "BSD-2-Clause", "BSD-3-Clause", "ISC", "MIT"];
const MOST_PACKAGES = 59;
const MOST_BYTES = 40e6;

/** A licence by SPDX: an expression of ORs needs one that is allowed, one of ANDs all of them. */
export function isAllowed(licence) {
  const plain = licence.trim().replace(/^\((.*)\)$/, "$1");
  if (plain.includes(" OR ")) return plain.split(" OR ").some(isAllowed);
  if (plain.includes(" AND ")) return plain.split(" AND ").every(isAllowed);
  return ALLOWED.includes(plain);
}

/** Bytes of a package's own files: packages nested in it, and what was compiled on this machine, are not its own. */
function sizeOf(path, top = true) {
  if (!existsSync(path)) return 0;
  let bytes = 0;
  for (const entry of readdirSync(path, { withFileTypes: true })) {
    if (top && (entry.name === "node_modules" || entry.name === "build")) continue;
    const inner = join(path, entry.name);
    bytes += entry.isDirectory() ? sizeOf(inner, false) : lstatSync(inner).size;
  }
  return bytes;
}

/** Every production package of a lock file. */
export function productionPackages(lock, root = ".") {
  return packagesWhere(lock, root, (entry) => !entry.dev && !entry.devOptional && !entry.optional);
}

/** What `--omit=optional` leaves out, as far as it is on this machine: the writers of PNG and PDF. */
function optionalPackages(lock, root = ".") {
  return packagesWhere(lock, root, (entry) => (entry.optional || entry.devOptional) && !entry.dev).filter(
    ({ bytes }) => bytes > 0,
  );
}

function packagesWhere(lock, root, wanted) {
  return Object.entries(lock.packages)
    .filter(([path, entry]) => path !== "" && wanted(entry))
    .map(([path, entry]) => ({
      name: path.replace(/^.*node_modules\//, ""),
      version: entry.version,
      licence: entry.license ?? "none stated",
      bytes: sizeOf(join(root, path)),
    }))
    .sort((a, b) => a.name.localeCompare(b.name, "en"));
}

export function wrongs(packages) {
  const bytes = packages.reduce((sum, one) => sum + one.bytes, 0);
  return [
    ...packages
      .filter(({ licence }) => !isAllowed(licence))
      .map(({ name, licence }) => `${name}: licence ${licence}; one of ${ALLOWED.join(", ")} is expected`),
    ...(packages.length > MOST_PACKAGES
      ? [`${packages.length} production packages; ${MOST_PACKAGES} or fewer are expected`]
      : []),
    ...(bytes > MOST_BYTES
      ? [`${(bytes / 1e6).toFixed(1)} MB of production packages; ${MOST_BYTES / 1e6} MB or less are expected`]
      : []),
  ];
}

if (process.argv[1] === import.meta.filename) {
  const packages = productionPackages(JSON.parse(readFileSync("package-lock.json", "utf8")));
  for (const { name, version, licence, bytes } of packages)
    process.stdout.write(
      `${`${name} ${version}`.padEnd(36)} ${licence.padEnd(36)} ${(bytes / 1e3).toFixed(0).padStart(7)} kB\n`,
    );
  const bytes = packages.reduce((sum, one) => sum + one.bytes, 0);
  process.stdout.write(`${packages.length} production packages, ${(bytes / 1e6).toFixed(1)} MB\n`);
  const optional = optionalPackages(JSON.parse(readFileSync("package-lock.json", "utf8")));
  if (optional.length > 0)
    process.stdout.write(
      `and ${optional.length} that --omit=optional leaves out, ${(optional.reduce((sum, one) => sum + one.bytes, 0) / 1e6).toFixed(1)} MB: ${optional.map(({ name, licence }) => `${name} (${licence})`).join(", ")}\n`,
    );
  const told = wrongs(packages);
  for (const line of told) process.stderr.write(`${line}\n`);
  if (packages.length === 0 || told.length > 0) process.exit(1);
}
