// Lists every package a production install brings, and those whose code the build brings into the command, with licence
// and size, and fails on a licence that was not agreed to, or when there are more packages or more megabytes than the
// project allows itself.
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

/** Development packages whose code, with that of all they need, the build brings into dist/cli. */
const BROUGHT_IN = ["pdfkit"];

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
  const paths = Object.entries(lock.packages).flatMap(([path, entry]) => (path !== "" && wanted(entry) ? [path] : []));
  return packagesAt(lock, root, paths);
}

function packagesAt(lock, root, paths) {
  return paths
    .map((path) => [path, lock.packages[path]])
    .map(([path, entry]) => ({
      name: path.replace(/^.*node_modules\//, ""),
      version: entry.version,
      licence: entry.license ?? licenceInFile(join(root, path)),
      bytes: sizeOf(join(root, path)),
    }))
    .sort((a, b) => a.name.localeCompare(b.name, "en"));
}

/** What a package that names no licence has in its file of one: the MIT licence by its first line and its first words. */
function licenceInFile(path) {
  const file = join(path, "LICENSE");
  const text = existsSync(file) ? readFileSync(file, "utf8") : "";
  return /^MIT License\s/.test(text) && text.includes("Permission is hereby granted, free of charge")
    ? "MIT"
    : "none stated";
}

/** Packages of a lock file that the build brings into the command, each once, with those they need. */
export function broughtIn(lock, root = ".") {
  const found = new Set();
  // A package is looked for beside the one that needs it, then farther and farther out.
  const placeOf = (name, from) => {
    for (let at = from; ; at = at.replace(/(^|\/)node_modules\/(?:@[^/]+\/)?[^/]+$/, "")) {
      const path = `${at === "" ? "" : `${at}/`}node_modules/${name}`;
      if (lock.packages[path] !== undefined) return path;
      if (at === "") throw new Error(`${name}: not in the lock file`);
    }
  };
  const open = BROUGHT_IN.map((name) => placeOf(name, ""));
  for (let path = open.pop(); path !== undefined; path = open.pop()) {
    if (found.has(path)) continue;
    found.add(path);
    for (const name of Object.keys(lock.packages[path].dependencies ?? {})) open.push(placeOf(name, path));
  }
  return packagesAt(lock, root, [...found]);
}

export function wrongLicences(packages) {
  return packages
    .filter(({ licence }) => !isAllowed(licence))
    .map(({ name, licence }) => `${name}: licence ${licence}; one of ${ALLOWED.join(", ")} is expected`);
}

export function wrongs(packages) {
  const bytes = packages.reduce((sum, one) => sum + one.bytes, 0);
  return [
    ...wrongLicences(packages),
    ...(packages.length > MOST_PACKAGES
      ? [`${packages.length} production packages; ${MOST_PACKAGES} or fewer are expected`]
      : []),
    ...(bytes > MOST_BYTES
      ? [`${(bytes / 1e6).toFixed(1)} MB of production packages; ${MOST_BYTES / 1e6} MB or less are expected`]
      : []),
  ];
}

if (process.argv[1] === import.meta.filename) {
  const lock = JSON.parse(readFileSync("package-lock.json", "utf8"));
  const packages = productionPackages(lock);
  for (const { name, version, licence, bytes } of packages)
    process.stdout.write(
      `${`${name} ${version}`.padEnd(36)} ${licence.padEnd(36)} ${(bytes / 1e3).toFixed(0).padStart(7)} kB\n`,
    );
  const bytes = packages.reduce((sum, one) => sum + one.bytes, 0);
  process.stdout.write(`${packages.length} production packages, ${(bytes / 1e6).toFixed(1)} MB\n`);
  const optional = optionalPackages(lock);
  if (optional.length > 0)
    process.stdout.write(
      `and ${optional.length} that --omit=optional leaves out, ${(optional.reduce((sum, one) => sum + one.bytes, 0) / 1e6).toFixed(1)} MB: ${optional.map(({ name, licence }) => `${name} (${licence})`).join(", ")}\n`,
    );
  const inside = broughtIn(lock);
  process.stdout.write(
    `and ${inside.length} whose code the build brings into dist/cli, licences in dist/cli/licences.md: ${inside.map(({ name, version, licence }) => `${name} ${version} (${licence})`).join(", ")}\n`,
  );
  const told = [...wrongs(packages), ...wrongLicences(inside)];
  for (const line of told) process.stderr.write(`${line}\n`);
  if (packages.length === 0 || told.length > 0) process.exit(1);
}
