export { type Bench, type BenchOptions, openBench } from "./bench.ts";
export type { Encryption, Opened, OpeningOptions } from "./boat-network.ts";
export { bookTopics } from "./book-topics.ts";
export { type Authority, authorityIn } from "./certificate/authority.ts";
export { contentSecurityPolicy } from "./headers.ts";
export type { Certificate } from "./listen.ts";
