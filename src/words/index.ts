// Causes, verdicts and numbers as sentences and units, the same on the command line, in the bench and in a report.
export { assumptionLine, derivationWords } from "./assumptions.ts";
export { besideWords, type Stated } from "./beside.ts";
export { CAUTION, INVENTED, PLANNING_CAUTION } from "./caution.ts";
export { criterionWords, notWeighedLine, planLimitWords } from "./choice.ts";
export { offsetText, trackApartText, trackClockText, trackClockWords } from "./clocks.ts";
export { complianceOf, complianceShown, complianceText, complianceUnit } from "./compliance.ts";
export { countText, durationText } from "./counts.ts";
export { driftLine, holdLine } from "./deck.ts";
export { doubtLine } from "./doubts.ts";
export {
  sayChance,
  sayHoldingVerdict,
  sayLaw,
  sayMore,
  sayNotComparable,
  sayPriors,
  sayShares,
  type Words,
} from "./holding.ts";
export { endCauseWords, endedWords, leftOutWords, loadWarnings, wordedEnd } from "./log.ts";
export {
  columnCauseWords,
  type GuessInWords,
  grantedWords,
  guessCauseWords,
  logGuessWords,
  logQuestionWords,
} from "./log-guess.ts";
export { markWords } from "./marks.ts";
export { groundWord, noEquilibriumLine, noEquilibriumWords } from "./no-equilibrium.ts";
export {
  type Force,
  firstMovementText,
  heldText,
  holdRuleLine,
  holdRulesLine,
  holdRuleText,
  planHoldLines,
  zeroText,
} from "./pull.ts";
export { remarkLine } from "./remarks.ts";
export { brokeOffWords } from "./ride.ts";
export { roadsSentence, tablesSentence } from "./roads.ts";
export { judgementWords, mixUpWords, notCarriedWords, unsettledWords, wordedJudgement, wordedShortCut } from "./run.ts";
export {
  againstLine,
  clockText,
  codeTroubleLine,
  degreesText,
  engineText,
  nextReasonLine,
  pullWarningLine,
  questionWords,
} from "./series.ts";
export { cannotBeRigged, type SnubberReasonWords, snubberReasonWords } from "./snubber.ts";
export { strengthLine, unknownStrengthLine } from "./strength.ts";
export { markCauseWords, traceWords } from "./trace.ts";
export { boundsText, shareOfDraws, spreadWords } from "./uncertainty.ts";
