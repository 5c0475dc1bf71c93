export { type ReductionReport, reductionReport } from "./report/reduction-report.ts";
export { giveText } from "./report/words.ts";
