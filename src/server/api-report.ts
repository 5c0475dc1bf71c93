import { Hono } from "hono";
import { z } from "zod";
import { jsonIn } from "./bodies.ts";
import type { BenchEnv } from "./request-context.ts";

/** Writes a report of ours as a PDF. @throws InputError where what it needs is not installed */
export type ReportWriter = (html: string, author: string) => Promise<Uint8Array>;

/** A report with its pictures; a series of hundreds of pulls has some megabytes. */
const MOST = 32_000_000;

const report = z.strictObject({ html: z.string().min(1).max(MOST), by: z.string().max(200) });

/** The report of the bench as a PDF, which is written outside the browser; nothing of it is kept. */
export function reportTopic(write: ReportWriter) {
  return new Hono<BenchEnv>().post("/report.pdf", jsonIn(report, MOST), async (c) => {
    const { html, by } = c.req.valid("json");
    return c.body(new Uint8Array(await write(html, by)), 200, { "Content-Type": "application/pdf" });
  });
}
