export { crossoverSvg } from './crossoverSvg.js';
