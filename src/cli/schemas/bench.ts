/** Answers of `rodebench open` and of `rodebench schema`. */
import * as z from "zod";
import { answerFormat } from "./answer.ts";

const moment = z.string().describe("ISO 8601");

export const benchAnswers = [
  answerFormat("opened@1", "open", {
    address: z.string(),
    book: z.string(),
    boatNetwork: z
      .looseObject({
        addresses: z.array(z.string()),
        code: z.string().describe("lets one device in, once"),
        codeUntil: z.number().describe("ms since 1970"),
        exposes: z.array(z.string()),
        fingerprint: z.string().optional().describe("SHA-256 of the authority to trust"),
      })
      .optional(),
  }),
  answerFormat("devices-listed@1", "open --devices, --withdraw", {
    devices: z.array(z.looseObject({ id: z.string(), name: z.string(), addedAt: moment, seenAt: moment })),
  }),
  answerFormat("formats@1", "schema", {
    formats: z.array(
      z.looseObject({
        name: z.string().regex(/^rodebench\/[a-z-]+@\d+$/),
        what: z.enum(["file", "answer"]),
        about: z.string(),
      }),
    ),
  }),
];
