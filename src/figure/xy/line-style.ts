import type { Role } from "./spec.ts";

const STROKES = ["solid", "dashed", "dotted"] as const;
const ROLES = ["computed", "other", "measured"] as const satisfies readonly Role[];

/**
 * The k-th of several lines of a kind, from 0, the same in the bench and in what leaves it. Of nine lines no two look alike,
 * and neighbours differ in colour and in stroke; the tenth is as the first.
 */
export const lineStyle = (k: number) => ({ role: ROLES[k % 3]!, stroke: STROKES[(k + Math.floor(k / 3)) % 3]! });
