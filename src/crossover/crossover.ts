export { type Answers, answersOf, withArticle } from './answers.js';
export { crossoverOf } from './crossoverOf.js';
export type { CrossoverOptions } from './options.js';
export type {
  BestAngle,
  BestAngles,
  Cell,
  CellHole,
  Crossover,
  Hole,
  Nearest,
  Region,
  SailUse,
  SettledCrossoverOptions,
  WindsAndAngles,
  WithoutSail,
} from './record.js';
