/**
 * Zones as clocks and titles name them. Names that stand for one offset only (tz database, recalled); CST, IST, BST and
 * AST stand for several and are asked.
 */

const HOURS: Readonly<Record<string, number>> = {
  UTC: 0,
  GMT: 0,
  WET: 0,
  WEST: 1,
  CET: 1,
  MEZ: 1,
  CEST: 2,
  MESZ: 2,
  EET: 2,
  EEST: 3,
  MSK: 3,
  SAST: 2,
  NST: -3.5,
  NDT: -2.5,
  ADT: -3,
  EST: -5,
  EDT: -4,
  CDT: -5,
  MST: -7,
  MDT: -6,
  PST: -8,
  PDT: -7,
  AKST: -9,
  AKDT: -8,
  HST: -10,
  AWST: 8,
  ACST: 9.5,
  ACDT: 10.5,
  AEST: 10,
  AEDT: 11,
  NZST: 12,
  NZDT: 13,
  JST: 9,
  KST: 9,
};
const SEVERAL = /^(CST|IST|BST|AST)$/;

/** Offset of a zone's name, s east of UTC; null for none or one of several. */
export function zoneOf(name: string): number | null {
  const hours = HOURS[name.toUpperCase()];
  return hours === undefined ? null : hours * 3600;
}

/** The name of several zones at the end of a stamp, or "". */
export function vagueZone(cell: string): string {
  const name = /\d ?([A-Z]{3,4})$/.exec(cell)?.[1] ?? "";
  return SEVERAL.test(name) ? name : "";
}

/** The zone a title or a line above a table states, s east of UTC; undefined where it states none. */
export function zoneIn(text: string): number | undefined {
  const offset = /(?:\b(?:utc|gmt)|[[(,])\s*([+\-−])\s*(\d{1,2})(?::?([0-5]\d))?(?=$|[\s\])),;])/i.exec(text);
  if (offset && Number(offset[2]) <= 14)
    return (offset[1] === "+" ? 1 : -1) * (Number(offset[2]) * 3600 + Number(offset[3] ?? 0) * 60);
  const name = /\b([A-Z]{3,4})\b/g;
  for (const found of text.matchAll(name)) {
    const zone = zoneOf(found[1]!);
    if (zone !== null) return zone;
  }
  return /\b(utc|gmt|zulu)\b/i.test(text) ? 0 : undefined;
}
