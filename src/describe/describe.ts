/** What a file is, and what is in it, in words; and what is said of options, as they were given. */
export { asGiven, faultAsGiven, HOUSE_OPTIONS, NUMBER_OPTIONS, optionNamed } from './asGiven.js';
export { type FileKind, HEAD_BYTES, kindOfText } from './kindOfText.js';
export {
  boatText,
  climatologyText,
  forecastText,
  planFileText,
  polarsText,
  routeText,
  warningsText,
} from './texts.js';
