/** What a file is, and what is in it, in words. */
export { type FileKind, kindOfText } from './kindOfText.js';
export {
  boatText,
  climatologyText,
  forecastText,
  planFileText,
  polarsText,
  routeText,
  warningsText,
} from './texts.js';
