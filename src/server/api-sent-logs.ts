import { Hono } from "hono";
import { z } from "zod";
import { InputError, quoted } from "../quantity/index.ts";
import { bodyParts, jsonIn, limits, queryIn } from "./bodies.ts";
import type { Intake } from "./intake.ts";
import { type LogReadings, named } from "./log-readings.ts";
import { Refusal } from "./refusals.ts";
import type { BenchEnv } from "./request-context.ts";
import type { SentFile, SentFiles } from "./sent-files.ts";

const told = z
  .strictObject({
    columns: z.array(z.string().min(1).max(300)).max(200).exactOptional(),
    delimiter: z.enum([",", ";", "\t", "|", " "]).exactOptional(),
    decimal: z.enum([".", ","]).exactOptional(),
    zone: z.string().max(20).exactOptional(),
    start: z.string().max(60).exactOptional(),
    rate: z.number().positive().max(1e6).exactOptional(),
    loads: z.enum(["sum", "each"]).exactOptional(),
    loadPath: z.string().max(300).exactOptional(),
    sources: z.array(z.string().max(300)).max(20).exactOptional(),
    context: z.string().max(300).exactOptional(),
  })
  .default({});
const preview = z.strictObject({ told });
const read = z.strictObject({
  told,
  pull: z.string().max(64).exactOptional(),
  day: z.string().max(64).exactOptional(),
  again: z.boolean().exactOptional(),
  name: z.string().min(1).max(200).exactOptional(),
});
const nothing = z.strictObject({});
const sending = z.looseObject({ name: z.string().optional() });

/** Log files sent from any device: taken in whole, looked at, read into the book with progress, stopped, let go. */
export function sentLogsTopic(files: SentFiles, readings: LogReadings, intake: Intake) {
  const found = (id: string): SentFile => {
    const file = files.find(id);
    if (file === undefined) throw new Refusal(404, "sent file", quoted(id), "a file that was sent and waits");
    return file;
  };
  const shown = ({ id, name, size }: SentFile) => ({ id, name, size, reading: readings.of(id) });
  return new Hono<BenchEnv>()
    .get("/sent-logs", (c) => c.json({ sent: files.list().map(shown) }))
    .post("/sent-logs", queryIn(sending), async (c) => {
      const type = (c.req.header("content-type") ?? "").split(";")[0]!.trim().toLowerCase();
      // A page elsewhere can send forms and plain text without asking first; this it cannot.
      if (type !== "application/octet-stream")
        throw new Refusal(415, "Content-Type", quoted(type), "application/octet-stream");
      const file = await files.take(c.req.valid("query").name ?? "", bodyParts(c, limits.log));
      return c.json({ sent: shown(file) }, 201);
    })
    .get("/sent-logs/:id", (c) => c.json({ sent: shown(found(c.req.param("id"))) }))
    .post("/sent-logs/:id/preview", jsonIn(preview), (c) => {
      const file = found(c.req.param("id"));
      try {
        return c.json({ preview: intake.preview(file, c.req.valid("json").told) });
      } catch (error) {
        throw error instanceof InputError ? named(error, file) : error;
      }
    })
    .post("/sent-logs/:id/read", jsonIn(read), (c) => {
      const file = found(c.req.param("id"));
      readings.begin(file, c.req.valid("json"), c.get("by"));
      return c.json({ sent: shown(file) }, 202);
    })
    .post("/sent-logs/:id/stop", jsonIn(nothing), async (c) => {
      const file = found(c.req.param("id"));
      await readings.stop(file.id);
      return c.json({ sent: shown(file) });
    })
    .delete("/sent-logs/:id", async (c) => {
      const file = found(c.req.param("id"));
      await readings.stop(file.id);
      files.remove(file.id);
      readings.forget(file.id);
      return c.json({ removed: file.id });
    });
}
