/** Numbers of records between bounds, both included: plain data, which a form has as well as the schema made from it. */

export interface Bounds {
  readonly least: number;
  readonly most: number;
}

const between = (least: number, most: number): Bounds => ({ least, most });
const direction = between(-360, 360);
const wind = between(0, 200);
const latitude = between(-90, 90);
const longitude = between(-180, 180);
const load = between(-1e7, 1e7);
const heldFor = between(0.1, 86_400);
const heldWithin = between(1e-3, 1000);

/** The least and the most of numbers of a record. */
export const bounds = {
  site: { latitude_deg: latitude, longitude_deg: longitude },
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
    heldFor_s: heldFor,
    heldWithin_m: heldWithin,
    calibration: between(0.1, 10),
    tare_N: load,
    slackLoad_N: load,
    bearing_deg: direction,
    anchorLatitude_deg: latitude,
    anchorLongitude_deg: longitude,
    trackClock_s: between(-86_400, 86_400),
  },
  series: { heldFor_s: heldFor, heldWithin_m: heldWithin },
  conclusion: { seed: between(0, 2 ** 31) },
} as const;

/** What is expected of a hold rule, for who typed another. */
export const expects = {
  heldFor_s: "a time from 0.1 s to a day is expected, such as 30 s",
  heldWithin_m: "a length from 1 mm to 1 km is expected, such as 0.5 m",
} as const;
