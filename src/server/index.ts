export { type Bench, type BenchOptions, openBench } from "./bench.ts";
export type { Encryption, Opened, OpeningOptions } from "./boat-network.ts";
export { type BookTopics, type BookTopicsOptions, bookTopics } from "./book-topics.ts";
export { openInBrowser } from "./browser.ts";
export { type Authority, authorityIn } from "./certificate/authority.ts";
export { dataFolder, type Surroundings } from "./data-folder.ts";
export { type Device, Devices } from "./devices.ts";
export { contentSecurityPolicy } from "./headers.ts";
export type { Certificate } from "./listen.ts";
