export { checkPackage, type Difference, type PackageChecked } from "./data/check-package.ts";
export { PRIVATE, type Private } from "./data/columns.ts";
export { dataPackage, type MadePackage, type PackageChoice, type PackageFiles } from "./data/data-package.ts";
export { type About, LICENCES, type Licence } from "./data/descriptor.ts";
export type { PackagedPull } from "./data/pull-rows.ts";
export { answersOf, type UsualInquiry, usualInquiry } from "./data/usual-inquiry.ts";
export { zipOf } from "./data/zip.ts";
export {
  catenaryEnds,
  chancesInWinds,
  GIVE_ASKED,
  type LiesInWind,
  type LoadInWind,
  liesInWind,
  liftsAt,
  type StandsFor,
  standsFor,
} from "./page/answer.ts";
export type { PageContent, PageHolding, Setup } from "./page/content.ts";
export { type DrawsText, drawsFromText, drawsToText } from "./page/draws-text.ts";
export { type PageChoice, pageContent, pageHolding } from "./page/page-content.ts";
export { pageHtml } from "./page/page-html.ts";
export { PAGE_SLOTS } from "./page/page-slots.ts";
export { setupsOfPulls } from "./page/setups.ts";
export {
  AREA_U_OF_SIZES,
  boatOf,
  OF_A_VIEWER,
  rigOf,
  usualNumbers,
  type ViewerNumbers,
} from "./page/viewer.ts";
export { type ReductionReport, reductionReport } from "./report/reduction-report.ts";
export { giveText } from "./report/words.ts";
export type { SeriesReport } from "./series/series.ts";
export { seriesReport } from "./series/series-report.ts";
export { fieldSheet } from "./sheet/field-sheet.ts";
