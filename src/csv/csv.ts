export { type CsvBlock, CsvStructureError, csvBlocks, type TextSource } from './blocks.js';
export { isBlank, readTable, structureSaid } from './table.js';
