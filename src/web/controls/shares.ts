/** How much of something comes of one source, 0 to 1 of the whole. */
export interface Share {
  readonly name: string;
  readonly share: number;
}

/** Standard uncertainties that are independent of each other as shares of the square of their sum. */
export function sharesOf(parts: readonly { readonly name: string; readonly u: number }[]): Share[] {
  const whole = parts.reduce((sum, { u }) => sum + u * u, 0);
  return whole > 0 ? parts.map(({ name, u }) => ({ name, share: (u * u) / whole })) : [];
}
