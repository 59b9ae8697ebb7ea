/**
 * Files in Node: reading the inputs of a passage, and writing what comes out.
 * @packageDocumentation
 */
export { readPlan } from '../output/output.js';
export { attempt } from './attempt.js';
export { worldLand } from './coast.js';
export { type ForecastFile, fileProblem, forecastFile, readTextFile, type TextFile, writeFiles } from './files.js';
export { type LoadedBoat, loadBoat } from './loadBoat.js';
export {
  type InputPaths,
  type LoadedInputs,
  type LoadOptions,
  loadInputs,
  type ReadingProgress,
} from './loadInputs.js';
export { type LoadedStudy, type LoadStudyOptions, loadStudy, type StudyPaths } from './loadStudy.js';
export { type PolarFile, readBoatPolar, readPolarFiles } from './readPolarFiles.js';
export { type RunStudyOptions, runStudy } from './runStudy.js';
export { openStudyFolder, type StudyFolder, type StudyKey } from './studyFolder.js';
