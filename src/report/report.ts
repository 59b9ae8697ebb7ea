export { crossoverSvg } from './crossover/crossoverSvg.js';
