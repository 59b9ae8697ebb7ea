export { CAUTION } from './caution.js';
export { changeReasons } from './changeReasons.js';
export { choiceNotes, landfallText } from './choiceText.js';
export { crossoverCsv } from './crossoverCsv.js';
export { crossoverJson } from './crossoverJson.js';
export { crossoverText } from './crossoverText.js';
export { duration, fixed, position, UNNAMED_CURRENCY } from './format.js';
export { hoursCsv } from './hoursCsv.js';
export { nextSailAnswer, nextSailFirstLine, nextSailMarkdown, nextSailText, rankedText } from './nextSailText.js';
export { type InputDigest, planJson } from './planJson.js';
export {
  climateLines,
  estimateLines,
  estimateNotes,
  knifeEdgeSection,
  type PlanToPrint,
  placeholderNote,
  planFirstLine,
} from './planParts.js';
export type { PlanFile } from './planSchema.js';
export { planMarkdown, totalsText } from './planText.js';
export { exactPolarsCsv, polarsCsv } from './polarsCsv.js';
export { readPlan } from './readPlan.js';
export { passageJsonLine, passagesCsvHeader, passagesCsvRow } from './studyCsv.js';
export { type StudyBehind, type StudyToPrint, studyJson } from './studyJson.js';
export {
  chancePassed,
  chanceText,
  climateNotes,
  passagesText,
  studyFirstLine,
  studyMarkdown,
  studyTotalsText,
  weightText,
} from './studyText.js';
export { trackGeojson } from './trackGeojson.js';
export { trackGpx } from './trackGpx.js';
export { hourLines } from './trackLine.js';
export { tradeoffCsv } from './tradeoffCsv.js';
export { moneyText, verdictLines } from './verdictText.js';
export { watchPlan } from './watchPlan.js';
export { rangeText, wearTold } from './wearText.js';
export { nextSailCsv, worthCsv } from './worthCsv.js';
export { nextSailJson, worthJson } from './worthJson.js';
export { worthMarkdown } from './worthMarkdown.js';
export { endsText, endText, INPUTS, isByClimatology, nameIn, signed, TOLD, worthFirstLine } from './worthParts.js';
export { worthText } from './worthText.js';
