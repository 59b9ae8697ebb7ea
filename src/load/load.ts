/** The files of a passage read together, so that a bad one does not hide the faults of the others; where they are is an argument. */
export { attempt } from './attempt.js';
export { type LoadedBoat, loadBoat, loadBoatInto } from './loadBoat.js';
export {
  checkLoading,
  type InputPaths,
  type LoadedInputs,
  type LoadedWeather,
  type LoadOptions,
  loadInputs,
  loadWeather,
  type ReadingProgress,
  type WeatherReader,
} from './loadInputs.js';
export { type PolarFile, readPolarFiles } from './readPolarFiles.js';
export { readTextInput } from './readTextInput.js';
export {
  type FileStore,
  type ForecastFile,
  LARGEST_FILES_MIB,
  type ReadTextFileOptions,
  type TextFile,
} from './store.js';
