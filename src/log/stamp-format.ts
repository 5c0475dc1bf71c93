/**
 * How a time column is written.
 * `ymd` `dmy` `mdy`: a date in that order (month in digits or letters), a clock time behind it, a zone where there is
 * one; `compact`: 20240503T123456; `epoch-…`: counts since 1970; `excel`: days of a spreadsheet's 1900 calendar;
 * `clock`: hh:mm:ss of a day; `elapsed-clock`: hh:mm:ss or mm:ss since the start; `elapsed-…`: a count since the
 * start; `count`: sample numbers.
 */
export const stampFormats = [
  "ymd",
  "dmy",
  "mdy",
  "compact",
  "epoch-s",
  "epoch-ms",
  "epoch-us",
  "excel",
  "clock",
  "elapsed-clock",
  "elapsed-s",
  "elapsed-ms",
  "elapsed-us",
  "elapsed-min",
  "elapsed-h",
  "count",
] as const;
export type StampFormat = (typeof stampFormats)[number];

/** Counts in a second: divided by, so that 1500 ms are 1.5 s to the last bit. */
const PER_SECOND: Partial<Record<StampFormat, number>> = {
  "epoch-s": 1,
  "epoch-ms": 1e3,
  "epoch-us": 1e6,
  "elapsed-s": 1,
  "elapsed-ms": 1e3,
  "elapsed-us": 1e6,
  "elapsed-min": 1 / 60,
  "elapsed-h": 1 / 3600,
  count: 1,
};

/** True for formats that are plain numbers times a scale. */
export function isCount(format: StampFormat): boolean {
  return PER_SECOND[format] !== undefined;
}

/** How many of a count's units make a second; 1 for other formats. */
export function perSecond(format: StampFormat): number {
  return PER_SECOND[format] ?? 1;
}
