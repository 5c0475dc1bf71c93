import { createHash } from "node:crypto";
import { Hono } from "hono";
import { z } from "zod";
import { quoted } from "../quantity/index.ts";
import { bodyParts, limits, queryIn } from "./bodies.ts";
import { pictureType, pictureTypes } from "./picture-type.ts";
import { type Records, shown } from "./records.ts";
import { Refusal } from "./refusals.ts";
import type { BenchEnv } from "./request-context.ts";

const about = z.strictObject({
  about: z.string().max(64).optional(),
  caption: z.string().min(1).max(2_000).optional(),
  takenAt: z.string().max(64).optional(),
});

/** Pictures and clips: their bytes copied into the book, and shown again. */
export function picturesTopic(records: Records) {
  return new Hono<BenchEnv>()
    .post("/pictures", queryIn(about), async (c) => {
      const set = c.req.valid("query");
      const parts: Uint8Array[] = [];
      for await (const part of bodyParts(c, limits.picture)) parts.push(part);
      const bytes = new Uint8Array(Buffer.concat(parts));
      const type = pictureType(bytes);
      if (type === undefined)
        throw new Refusal(415, "body", `${bytes.length} bytes`, `a picture or clip: ${pictureTypes.join(", ")}`);
      // The same picture of the same thing sent twice (its answer was lost) is kept once.
      const copy = createHash("sha256").update(bytes).digest("hex");
      const known = records.list("picture", { where: { copy, about: set.about ?? null } })[0];
      const id = known?.id ?? records.addPicture({ ...set, type }, bytes, c.get("by"));
      return c.json({ record: shown(records.get("picture", id)!) });
    })
    .get("/files/:sha256", (c) => {
      const sha256 = c.req.param("sha256");
      const bytes = /^[0-9a-f]{64}$/.test(sha256) ? records.file(sha256) : undefined;
      if (bytes === undefined)
        throw new Refusal(404, "file", quoted(sha256), "the SHA-256 of a file copied into this book");
      const type = pictureType(bytes);
      return c.body(new Uint8Array(bytes), 200, {
        "Content-Type": type ?? "application/octet-stream",
        // Nothing in it may run, whatever it is; what is no picture is saved, not shown.
        "Content-Security-Policy": "default-src 'none'; sandbox",
        "Content-Disposition": type === undefined ? "attachment" : "inline",
        "Cache-Control": "private, max-age=31536000, immutable",
      });
    });
}
