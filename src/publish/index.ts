export { checkPackage, type Difference, type PackageChecked } from "./data/check-package.ts";
export { PRIVATE, type Private } from "./data/columns.ts";
export { dataPackage, type MadePackage, type PackageChoice, type PackageFiles } from "./data/data-package.ts";
export { type About, LICENCES, type Licence, saysInvented } from "./data/descriptor.ts";
export type { PackagedPull } from "./data/pull-rows.ts";
export type { RawLog } from "./data/raw-logs.ts";
export { answersOf, type UsualInquiry, usualInquiry } from "./data/usual-inquiry.ts";
export { zipOf, zipParts } from "./data/zip.ts";
export { FIGURE_KINDS, type FigureKindName } from "./figure/kinds.ts";
export type { FigureMade } from "./figure/made.ts";
export { bridleFigure } from "./figure/of-bridle.ts";
export { type GiveDrawn, giveFigure } from "./figure/of-give.ts";
export { matchMapFigure } from "./figure/of-match.ts";
export { type MomentDrawn, momentFigure } from "./figure/of-moment.ts";
export { type OnePullDrawn, onePullFigure } from "./figure/of-one-pull.ts";
export { chanceFigure, heldFigure, holdingFigure, pullsFigure } from "./figure/of-pulls.ts";
export { type RunReduced, readingsFigure } from "./figure/of-readings.ts";
export { type RideDrawn, rideFigure, rideSharesFigure, sharesMarks } from "./figure/of-ride.ts";
export { type LadderRow, ladderFigure, type RodeAsked, rodeFigure, togetherFigure } from "./figure/of-rodes.ts";
export { type SiteDrawn, sitesFigure } from "./figure/of-sites.ts";
export { snubbersFigure } from "./figure/of-snubbers.ts";
export { traceFigure } from "./figure/of-trace.ts";
export { againstText, waterFigure } from "./figure/of-water.ts";
export { type HeldAtWay, wayFigure } from "./figure/of-way.ts";
export { weatherFigure } from "./figure/of-weather.ts";
export {
  type PublishedSheet,
  SHEETS,
  type SheetChoice,
  type SheetFormat,
  type SheetName,
  sheetOf,
} from "./figure/sheet.ts";
export {
  type Film,
  type FilmFrame,
  type FilmShown,
  FRAMES_HEAD,
  filmOf,
  frameCount,
  frameLine,
  MOST_FRAMES,
  wholeClip,
} from "./overlay/film.ts";
export {
  type Cut,
  clipFrames,
  type FrameRate,
  frameOfStamp,
  framesWithin,
  nanosecondsOf,
  rateText,
  readCuts,
  readFrameRate,
  secondsText,
} from "./overlay/frame-time.ts";
export {
  loadAt as overlayLoadAt,
  logTimeOf,
  type OverlayLog,
  type RodeNow,
  rodeUnder,
  type Sync,
} from "./overlay/overlay.ts";
export { CORNERS, type PanelNow, type PanelPlace, type PanelSpec, panelSvg, readFrameSize } from "./overlay/panel.ts";
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
export type { Attachment, Block, PdfCell, PdfDocument, Run } from "./pdf/blocks.ts";
export { documentOfHtml } from "./pdf/blocks-of-html.ts";
export { documentPdf } from "./pdf/document.ts";
export { figurePdf, type PdfFigure } from "./pdf/figure.ts";
export type { PdfAbout, PdfTools, PdfWriter, StructureContent, StructureElement } from "./pdf/tools.ts";
export { type ReductionReport, reductionReport } from "./report/reduction-report.ts";
export { giveText } from "./report/words.ts";
export type { SeriesReport } from "./series/series.ts";
export { seriesReport } from "./series/series-report.ts";
export { fieldSheet } from "./sheet/field-sheet.ts";
