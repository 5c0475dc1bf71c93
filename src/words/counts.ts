/** Seconds as people say them: `42 s`, `3 min 20 s`, `2 h 5 min`. */
export function durationText(seconds: number): string {
  if (seconds < 10) return `${Number(seconds.toFixed(1))} s`;
  const whole = Math.round(seconds);
  if (whole < 60) return `${whole} s`;
  if (whole < 3600) return `${Math.floor(whole / 60)} min${whole % 60 === 0 ? "" : ` ${whole % 60} s`}`;
  const minutes = Math.round(whole / 60);
  return `${Math.floor(minutes / 60)} h${minutes % 60 === 0 ? "" : ` ${minutes % 60} min`}`;
}

/** Thousands parted by commas, whatever the machine's own language is. */
const grouped = new Intl.NumberFormat("en-GB");

/** A count with its noun: "1 pull", "3 pulls". */
export const countText = (n: number, one: string, many: string): string =>
  `${grouped.format(n)} ${n === 1 ? one : many}`;
