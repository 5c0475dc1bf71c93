/** A log file that was sent to the bench, and how far its reading is. */
export interface Sent {
  readonly id: string;
  readonly name: string;
  readonly size: number;
  readonly reading:
    | { readonly kind: "waiting" }
    | { readonly kind: "reading"; readonly position: number; readonly rows: number }
    | {
        readonly kind: "done";
        readonly answer: {
          readonly kind: string;
          readonly log?: string;
          readonly rows?: number;
          readonly known?: number;
          readonly marks?: number;
        };
      }
    | {
        readonly kind: "failed";
        readonly error?: { readonly place: string; readonly given: string; readonly expected: string };
      };
}

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
