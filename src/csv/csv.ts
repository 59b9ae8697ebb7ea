export { type CsvBlock, CsvStructureError, csvBlocks, csvRows, type TextSource } from './blocks.js';
export { isBlank, readTable, structureSaid, type TableColumns, type TableRow } from './table.js';
