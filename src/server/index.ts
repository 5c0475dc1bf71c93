export { type Bench, openBench } from "./bench.ts";
export type { Encryption, Opened } from "./boat-network.ts";
export { type BoatNetworkApi, type BookApi, type BooksApi, bookTopics, type ReportApi } from "./book-topics.ts";
export { BooksHere, devicesFileOf, lastChosenIn } from "./books-here.ts";
export { openInBrowser } from "./browser.ts";
export { authorityIn } from "./certificate/authority.ts";
export { dataFolder } from "./data-folder.ts";
export { Devices } from "./devices.ts";
