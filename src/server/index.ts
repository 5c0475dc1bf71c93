export { type Bench, type BenchOptions, openBench } from "./bench.ts";
export type { Opened, OpeningOptions } from "./boat-network.ts";
export { contentSecurityPolicy } from "./headers.ts";
export type { Certificate } from "./listen.ts";
