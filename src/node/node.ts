/**
 * Files in Node: reading the inputs of a passage, and writing what comes out.
 * @packageDocumentation
 */
export { fileProblem, writeFiles } from './files.js';
export {
  type InputPaths,
  type LoadedInputs,
  type LoadOptions,
  loadInputs,
  type ReadingProgress,
} from './loadInputs.js';
