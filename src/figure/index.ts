export { angleLines, chanceLines, heldSteps, type LineStyle, MOST_LINES } from "./holding/concluded-lines.ts";
export { type DrawnPulls, drawPulls, type PullMark, type PullsSpec } from "./holding/draw-pulls.ts";
export { pullRows } from "./holding/pull-rows.ts";
export { flat, INKS, type Ink, ink, inkProperties, type Theme } from "./ink.ts";
export { linesOf } from "./lines-of-text.ts";
export { type DrawnMatchMap, drawMatchMap, type MatchMapQuestion } from "./match/match-map.ts";
export { type LoadAtWay, type LoadOverWay, loadOverWay } from "./pull/load-over-way.ts";
export { angleOverLoad, movementOverLoad } from "./readings/over-load.ts";
export { curveLoads, endName, type ReadingsFigure } from "./readings/rows.ts";
export { drawMoment, type MomentDrawing } from "./ride/draw-moment.ts";
export { CLASSES as SHARE_CLASSES, drawShares, type SharesDrawing, sharesOf } from "./ride/draw-shares.ts";
export { drawRideOverTime, type RideOverTime } from "./ride/over-time.ts";
export { type DrawnRode, drawRode } from "./rode/draw-rode.ts";
export { drawTogether, type TogetherDrawing } from "./rode/draw-together.ts";
export type { RodeDrawing } from "./rode/rode-drawing.ts";
export type { Stage } from "./rode/stage.ts";
export type { Box } from "./room-for.ts";
export type { Scale } from "./scale.ts";
export { drawWater, type WaterDrawing, type WaterRow } from "./series/draw-water.ts";
export type { Drawn, FigureWords } from "./sheet.ts";
export { drawSites, type SiteMark, type SitesDrawing } from "./sites/draw-sites.ts";
export { type GraticuleLine, graticuleOf, type MapSight, scaleBarOf } from "./sites/map-lines.ts";
export { type Place, type Plane, placeText, planeOf } from "./sites/plane.ts";
export { type BridleDrawing, drawBridle } from "./snubbers/draw-bridle.ts";
export { drawSnubberMap, type SnubberMapDrawing } from "./snubbers/draw-snubber-map.ts";
export { borderOf, type MapFrame, regionsOf } from "./snubbers/map-cells.ts";
export { escaped } from "./svg.ts";
export { type FigureTable, figureCsv } from "./table-csv.ts";
export {
  type DrawnPanels,
  type DrawnPlot,
  type DrawnXy,
  drawPanels,
  drawXy,
  type PanelSpec,
  type PanelsSpec,
} from "./xy/draw-xy.ts";
export { lineStyle } from "./xy/line-style.ts";
export type { AxisSpec, Layer, PlotPoint, PointShape, Role, XySpec } from "./xy/spec.ts";
