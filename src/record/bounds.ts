/** Numbers of records between bounds, both included: plain data, which a form has as well as the schema made from it. */

export interface Bounds {
  readonly least: number;
  readonly most: number;
}

const between = (least: number, most: number): Bounds => ({ least, most });
const direction = between(-360, 360);
const wind = between(0, 200);

/** The least and the most of numbers of a record. */
export const bounds = {
  site: { latitude_deg: between(-90, 90), longitude_deg: between(-180, 180) },
  anchor: { mass_kg: between(1e-3, 1e6), flukeArea_m2: between(1e-6, 1e4) },
  day: {
    wind_m_per_s: wind,
    gust_m_per_s: wind,
    windFrom_deg: direction,
    waterLevel_m: between(-100, 100),
  },
  pull: {
    number: between(0, 2 ** 40),
    depth_m: between(0, 12_000),
    scope: between(1, 1000),
    paidOut_m: between(0.01, 1e5),
    heading_deg: direction,
    setDistance_m: between(-1e4, 1e4),
  },
  conclusion: { seed: between(0, 2 ** 31) },
} as const;
