import { createHash } from "node:crypto";
import { readdirSync, readFileSync, statSync } from "node:fs";
import { extname, join, relative, sep } from "node:path";
import { brotliCompressSync, constants, gzipSync } from "node:zlib";

const TYPES: Readonly<Record<string, string>> = {
  ".html": "text/html; charset=utf-8",
  ".js": "text/javascript; charset=utf-8",
  ".mjs": "text/javascript; charset=utf-8",
  ".css": "text/css; charset=utf-8",
  ".json": "application/json; charset=utf-8",
  ".webmanifest": "application/manifest+json; charset=utf-8",
  ".map": "application/json; charset=utf-8",
  ".svg": "image/svg+xml; charset=utf-8",
  ".png": "image/png",
  ".jpg": "image/jpeg",
  ".webp": "image/webp",
  ".ico": "image/x-icon",
  ".woff2": "font/woff2",
  ".wasm": "application/wasm",
  ".txt": "text/plain; charset=utf-8",
  ".md": "text/markdown; charset=utf-8",
};

/** A file of the built app, as it is served. */
interface Asset {
  readonly type: string;
  readonly cache: string;
  readonly etag: string;
  readonly plain: Uint8Array<ArrayBuffer>;
  /** Made when first asked for, then kept. */
  brotli?: Uint8Array<ArrayBuffer>;
  gzip?: Uint8Array<ArrayBuffer>;
}

/** The built web app: a list of its files made once, so that no address can name anything else. */
export interface BuiltApp {
  /** The answer to a GET or HEAD for this path; undefined when the app has no such file and no page of its own fits. */
  serve(
    path: string,
    ask: { readonly accept: string; readonly encoding: string; readonly etag: string },
  ): Response | undefined;
}

/**
 * Reads the folder the web app was built into.
 * @returns undefined when it holds no index.html (it was never built)
 */
export function readBuiltApp(folder: string): BuiltApp | undefined {
  const assets = new Map<string, Asset>();
  for (const file of filesOf(folder)) {
    const path = `/${relative(folder, file).split(sep).join("/")}`;
    assets.set(path, read(file, path));
  }
  const index = assets.get("/index.html");
  if (index === undefined) return undefined;
  return {
    serve(path, ask) {
      const asset = assets.get(path === "/" ? "/index.html" : path);
      if (asset) return answer(asset, ask);
      // Any address of the app is a state of the one page; a missing file is missing.
      return isPage(path, ask.accept) ? answer(index, ask) : undefined;
    },
  };
}

function isPage(path: string, accept: string): boolean {
  return (
    accept.includes("text/html") && !path.startsWith("/api/") && !path.startsWith("/assets/") && extname(path) === ""
  );
}

/** Every plain file under a folder; links are not followed. */
function filesOf(folder: string): string[] {
  let entries: import("node:fs").Dirent[];
  try {
    entries = readdirSync(folder, { withFileTypes: true });
  } catch {
    return [];
  }
  return entries.flatMap((entry) => {
    const path = join(folder, entry.name);
    if (entry.isDirectory()) return filesOf(path);
    return entry.isFile() && statSync(path).size < 64_000_000 ? [path] : [];
  });
}

function read(file: string, path: string): Asset {
  const plain = new Uint8Array(readFileSync(file));
  return {
    type: TYPES[extname(file).toLowerCase()] ?? "application/octet-stream",
    cache: cacheOf(path),
    etag: createHash("sha256").update(plain).digest("base64url").slice(0, 22),
    plain,
  };
}

/** Files named by their content never change; the page, the manifest and the service worker are asked for each time. */
function cacheOf(path: string): string {
  const hash = /^\/assets\/.+[-.]([A-Za-z0-9_-]{8})\.[a-z0-9]+$/.exec(path)?.[1];
  // A plain word of eight letters is no hash: the file is asked for each time, which is only slower.
  return hash !== undefined && /[A-Z0-9]/.test(hash) ? "public, max-age=31536000, immutable" : "no-cache";
}

function answer(asset: Asset, ask: { readonly encoding: string; readonly etag: string }): Response {
  const headers = new Headers({
    "Content-Type": asset.type,
    "Cache-Control": asset.cache,
    ETag: `"${asset.etag}"`,
    Vary: "Accept-Encoding",
  });
  if (ask.etag.split(",").some((tag) => tag.trim().replace(/^W\//, "") === `"${asset.etag}"`)) {
    return new Response(null, { status: 304, headers });
  }
  const [body, encoding] = packed(asset, ask.encoding);
  if (encoding !== "") headers.set("Content-Encoding", encoding);
  headers.set("Content-Length", String(body.byteLength));
  return new Response(body, { headers });
}

function packed(asset: Asset, accepted: string): readonly [Uint8Array<ArrayBuffer>, string] {
  const worth = asset.plain.byteLength > 1024 && /^text\/|json|svg|wasm/.test(asset.type);
  if (worth && /\bbr\b/.test(accepted)) {
    asset.brotli ??= new Uint8Array(
      brotliCompressSync(asset.plain, { params: { [constants.BROTLI_PARAM_QUALITY]: 6 } }),
    );
    return [asset.brotli, "br"];
  }
  if (worth && /\bgzip\b/.test(accepted)) {
    asset.gzip ??= new Uint8Array(gzipSync(asset.plain));
    return [asset.gzip, "gzip"];
  }
  return [asset.plain, ""];
}
