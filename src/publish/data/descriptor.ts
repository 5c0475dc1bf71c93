/**
 * The descriptor of a package: Data Package with Table Schema, version 1 of the Frictionless specifications.
 * What of it their own profiles ask is held by test/publish/data-package.test.ts against the published schemas.
 */
import { plainText } from "../../quantity/index.ts";
import { INVENTED } from "../../words/index.ts";
import type { Column } from "./columns.ts";

/** A licence others may use the data by. */
export interface Licence {
  readonly name: string;
  readonly title: string;
  readonly path: string;
}

/** Licences for data that have a name of their own. */
export const LICENCES: Readonly<Record<string, Licence>> = {
  "CC-BY-4.0": {
    name: "CC-BY-4.0",
    title: "Creative Commons Attribution 4.0",
    path: "https://creativecommons.org/licenses/by/4.0/",
  },
  "CC0-1.0": {
    name: "CC0-1.0",
    title: "CC0 1.0",
    path: "https://creativecommons.org/publicdomain/zero/1.0/",
  },
  "ODC-BY-1.0": {
    name: "ODC-BY-1.0",
    title: "Open Data Commons Attribution License 1.0",
    path: "https://opendatacommons.org/licenses/by/1-0/",
  },
};

/** A file of a package as its descriptor tells of it. */
export interface ResourceFile {
  readonly path: string;
  readonly title: string;
  readonly bytes: number;
  /** SHA-256, hexadecimal. */
  readonly hash: string;
  /** Of a table. */
  readonly columns?: readonly Column[];
  /** The column no two rows have alike. */
  readonly key?: string;
}

/** What the descriptor says of the whole. */
export interface About {
  readonly title: string;
  readonly description: string;
  readonly by: string;
  readonly citation: string;
  readonly licence: Licence;
  readonly program: string;
  /** When it was made, such as 2031-05-17; nothing is said without. */
  readonly date?: string;
  /** Made of a book whose data are invented. */
  readonly invented?: boolean;
}

const TYPES: Readonly<Record<string, readonly [format: string, mediatype: string]>> = {
  csv: ["csv", "text/csv"],
  parquet: ["parquet", "application/vnd.apache.parquet"],
  json: ["json", "application/json"],
  yaml: ["yaml", "application/yaml"],
  md: ["md", "text/markdown"],
};

/** The descriptor as plain data. */
export function descriptorOf(about: About, files: readonly ResourceFile[]): object {
  const { title, by, citation, licence, program, date, invented = false } = about;
  const description = [...(invented ? [INVENTED] : []), about.description].filter((part) => part !== "").join(" ");
  return {
    profile: "data-package",
    name: slug(title),
    title: plainText(title),
    ...(description === "" ? {} : { description: plainText(description) }),
    version: "1.0.0",
    ...(date === undefined ? {} : { created: `${date}T00:00:00Z` }),
    licenses: [licence],
    ...(by === "" ? {} : { contributors: [{ title: plainText(by), role: "author" }] }),
    keywords: ["anchors", "holding", "censored data"],
    citation: plainText(citation),
    madeBy: `rodebench ${program}`,
    ...(invented ? { invented } : {}),
    resources: files.map(resource),
  };
}

/** Whether a descriptor, as its bytes, says that the data are invented. */
export function saysInvented(descriptor: Uint8Array | undefined): boolean {
  if (descriptor === undefined) return false;
  try {
    return (JSON.parse(new TextDecoder().decode(descriptor)) as { invented?: unknown } | null)?.invented === true;
  } catch {
    return false;
  }
}

function resource({ path, title, bytes, hash, columns, key }: ResourceFile): object {
  const [format, mediatype] = TYPES[path.split(".").at(-1)!] ?? ["bin", "application/octet-stream"];
  const table = columns !== undefined && format === "csv";
  return {
    name: slug(path.replace(/\.[^.]+$/, (ending) => (ending === ".csv" ? "" : `-${ending.slice(1)}`))),
    path,
    title: plainText(title),
    profile: table ? "tabular-data-resource" : "data-resource",
    format,
    mediatype,
    ...(format === "parquet" ? {} : { encoding: "utf-8" }),
    bytes,
    hash: `sha256:${hash}`,
    ...(table
      ? {
          dialect: { delimiter: ",", lineTerminator: "\r\n", quoteChar: '"', doubleQuote: true, header: true },
          schema: {
            fields: columns.map(field),
            missingValues: [""],
            ...(key === undefined ? {} : { primaryKey: key }),
          },
        }
      : {}),
  };
}

function field({ name, type, unit, description, required, oneOf, within }: Column): object {
  const constraints = {
    ...(required ? { required: true } : {}),
    ...(oneOf === undefined ? {} : { enum: oneOf }),
    ...(within === undefined ? {} : { minimum: within.least, maximum: within.most }),
  };
  return {
    name,
    type,
    description,
    ...(unit === "" ? {} : { unit }),
    ...(Object.keys(constraints).length === 0 ? {} : { constraints }),
  };
}

/** Small letters and digits of ASCII joined by hyphens, as names of packages and resources are. */
export function slug(text: string): string {
  const plain = text
    .normalize("NFKD")
    .toLowerCase()
    .replace(/[^a-z0-9._]+/g, "-")
    .replace(/^[-.]+|[-.]+$/g, "");
  return plain === "" ? "pulls" : plain.slice(0, 80);
}
