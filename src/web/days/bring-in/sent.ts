import type { InferResponseType } from "hono/client";
import type { book } from "../../api/client.ts";

/** A log file that was sent to the bench, and how far its reading is. */
export type Sent = InferResponseType<(typeof book)["sent-logs"]["$get"]>["sent"][number];

export function sizeText(bytes: number): string {
  return bytes < 1e6 ? `${Math.max(1, Math.round(bytes / 1000))} kB` : `${(bytes / 1e6).toFixed(1)} MB`;
}

export function stateText({ reading }: Sent): string {
  switch (reading.kind) {
    case "waiting":
      return "waits to be read";
    case "reading":
      return "is being read";
    case "failed":
      return "could not be read";
    case "done":
      return reading.answer.kind === "stopped" ? "stopped" : "read";
  }
}
