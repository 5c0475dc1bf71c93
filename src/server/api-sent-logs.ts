import type { Hono } from "hono";
import { z } from "zod";
import { InputError, quoted } from "../quantity/index.ts";
import type { BenchEnv } from "./arrival.ts";
import { bodyParts, jsonBody, limits } from "./bodies.ts";
import type { Intake } from "./intake.ts";
import { type LogReadings, named } from "./log-readings.ts";
import { Refusal } from "./refusals.ts";
import type { SentFile, SentFiles } from "./sent-files.ts";

const told = z
  .strictObject({
    columns: z.array(z.string().min(1).max(300)).max(200).exactOptional(),
    delimiter: z.enum([",", ";", "\t", "|", " "]).exactOptional(),
    decimal: z.enum([".", ","]).exactOptional(),
    zone: z.string().max(20).exactOptional(),
    start: z.string().max(60).exactOptional(),
    rate: z.number().positive().max(1e6).exactOptional(),
  })
  .default({});
const preview = z.strictObject({ told });
const read = z.strictObject({
  told,
  loadPath: z.string().max(300).exactOptional(),
  pull: z.string().max(64).exactOptional(),
  day: z.string().max(64).exactOptional(),
  again: z.boolean().exactOptional(),
  name: z.string().min(1).max(200).exactOptional(),
});
const nothing = z.strictObject({});

/** Log files sent from any device: taken in whole, looked at, read into the book with progress, stopped, let go. */
export function sentLogsTopic(files: SentFiles, readings: LogReadings, intake: Intake): (api: Hono<BenchEnv>) => void {
  const found = (id: string): SentFile => {
    const file = files.find(id);
    if (file === undefined) throw new Refusal(404, "sent file", quoted(id), "a file that was sent and waits");
    return file;
  };
  const shown = ({ id, name, size }: SentFile) => ({ id, name, size, reading: readings.of(id) });
  return (api) => {
    api.get("/sent-logs", (c) => c.json({ sent: files.list().map(shown) }));
    api.post("/sent-logs", async (c) => {
      const type = (c.req.header("content-type") ?? "").split(";")[0]!.trim().toLowerCase();
      // A page elsewhere can send forms and plain text without asking first; this it cannot.
      if (type !== "application/octet-stream")
        throw new Refusal(415, "Content-Type", quoted(type), "application/octet-stream");
      const file = await files.take(c.req.query("name") ?? "", bodyParts(c, limits.log));
      return c.json({ sent: shown(file) }, 201);
    });
    api.get("/sent-logs/:id", (c) => c.json({ sent: shown(found(c.req.param("id"))) }));
    api.post("/sent-logs/:id/preview", async (c) => {
      const file = found(c.req.param("id"));
      const asked = await jsonBody(c, preview);
      try {
        return c.json({ preview: intake.preview(file, asked.told) });
      } catch (error) {
        throw error instanceof InputError ? named(error, file) : error;
      }
    });
    api.post("/sent-logs/:id/read", async (c) => {
      const file = found(c.req.param("id"));
      readings.begin(file, await jsonBody(c, read), c.get("by"));
      return c.json({ sent: shown(file) }, 202);
    });
    api.post("/sent-logs/:id/stop", async (c) => {
      const file = found(c.req.param("id"));
      await jsonBody(c, nothing);
      await readings.stop(file.id);
      return c.json({ sent: shown(file) });
    });
    api.delete("/sent-logs/:id", async (c) => {
      const file = found(c.req.param("id"));
      await readings.stop(file.id);
      files.remove(file.id);
      readings.forget(file.id);
      return c.json({ removed: file.id });
    });
  };
}
