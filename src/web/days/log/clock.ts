/** Times of a log as text: UTC where the log counts from 1970, else time since its start. */

/** A log that counts from before this was never set to a date. */
const DATED = 1e8;

export const isDated = (seconds: number): boolean => Math.abs(seconds) >= DATED;

const two = (n: number): string => String(n).padStart(2, "0");

/** `09:31:07.5`, or `1:02:03` since the start; as fine as a step of the axis needs. */
export function clockText(seconds: number, step: number): string {
  const digits = step >= 1 ? 0 : Math.min(3, Math.ceil(-Math.log10(step)));
  const scale = 10 ** digits;
  const ticks = Math.round(seconds * scale);
  const whole = Math.floor(ticks / scale);
  const rest = digits === 0 ? "" : `.${String(ticks - whole * scale).padStart(digits, "0")}`;
  if (isDated(seconds)) {
    const day = ((whole % 86_400) + 86_400) % 86_400;
    const [h, m, s] = [Math.floor(day / 3600), Math.floor((day % 3600) / 60), day % 60];
    if (step >= 86_400) return new Date(whole * 1000).toISOString().slice(0, 10);
    return step >= 60 ? `${two(h)}:${two(m)}` : `${two(h)}:${two(m)}:${two(s)}${rest}`;
  }
  const sign = whole < 0 ? "−" : "";
  const size = Math.abs(whole);
  const [h, m, s] = [Math.floor(size / 3600), Math.floor((size % 3600) / 60), size % 60];
  return h > 0 ? `${sign}${h}:${two(m)}:${two(s)}${rest}` : `${sign}${m}:${two(s)}${rest}`;
}

const STEPS = [
  0.001, 0.002, 0.005, 0.01, 0.02, 0.05, 0.1, 0.2, 0.5, 1, 2, 5, 10, 15, 30, 60, 120, 300, 600, 900, 1800, 3600, 7200,
  10_800, 21_600, 43_200, 86_400, 172_800, 604_800,
];

/** The step that cuts a stretch into about so many pieces. */
export const timeStep = (span: number, about: number): number =>
  STEPS.find((step) => span / step <= about) ?? STEPS.at(-1)!;

export function timeTicks(from: number, to: number, about: number): { at: number[]; step: number } {
  const step = timeStep(to - from, about);
  const at: number[] = [];
  for (let k = Math.ceil(from / step); k * step <= to && at.length < 200; k++) at.push(k * step);
  return { at, step };
}
