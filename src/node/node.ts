/**
 * Files in Node: reading the inputs of a passage, and writing what comes out.
 * `sample` in examples is explained with `windwardrobe` itself.
 * @packageDocumentation
 */
export type {
  ForecastFile,
  InputPaths,
  LoadedBoat,
  LoadedInputs,
  LoadOptions,
  PolarFile,
  ReadingProgress,
  ReadTextFileOptions,
  TextFile,
} from '../load/load.js';
export { LARGEST_FILES_MIB } from '../load/load.js';
export { readPlan } from '../output/output.js';
export { worldLand } from './coast.js';
export { attemptOnDisk, DISK, loadBoat, loadInputs } from './disk.js';
export { writeNewFile } from './drafts.js';
export { fileProblem, forecastFile, readTextFile, writeFiles } from './files.js';
export { type LoadedStudy, type LoadStudyOptions, loadStudy, type StudyPaths } from './loadStudy.js';
export { type RunStudyOptions, runStudy } from './runStudy.js';
export { type ServedPage, servePage } from './servePage.js';
export { openStudyFolder, type StudyFolder, type StudyKey } from './studyFolder.js';
