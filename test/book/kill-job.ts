export const jobNames = [
  "record",
  "live",
  "import",
  "migrate",
  "backup",
  "write",
  "merge",
  "restore",
  "replace",
  "begin",
] as const;
export type Job = (typeof jobNames)[number];

export const CHANNELS = [
  { name: "load", quantity: "force", unit: "N", precision: "double" as const },
  { name: "angle", quantity: "angle", unit: "deg", precision: "double" as const },
];
/** Rows of one append of the import. */
export const BATCH = 700;
/** Old books the migration works through. */
export const COPIES = 9;

/** The i-th reading of the invented source: what must lie in row i, once. */
export const reading = (i: number): { t: number; load: number; angle: number } => ({
  t: 1.9e9 + i / 100,
  load: 2000 + 500 * Math.sin(i / 40) + (i % 7),
  angle: (i * 0.6180339887498949) % 1,
});

export function rowsFrom(from: number, count: number) {
  const rows = Array.from({ length: count }, (_, i) => reading(from + i));
  return {
    times: Float64Array.from(rows, (r) => r.t),
    columns: { load: Float64Array.from(rows, (r) => r.load), angle: Float64Array.from(rows, (r) => r.angle) },
  };
}
