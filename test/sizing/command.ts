import { readFileSync } from "node:fs";

export const cautionOnce = "not a promise that anything holds";
export const read = (path: string) => readFileSync(new URL(`../../${path}`, import.meta.url), "utf8");
