export { type CsvBlock, CsvStructureError, countLineEnds, csvBlocks, csvRows, type TextSource } from './blocks.js';
export { isBlank, readTable, structureSaid } from './table.js';
export { textCell, textOfCell } from './textCell.js';
