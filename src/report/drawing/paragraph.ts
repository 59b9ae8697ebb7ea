import type { Block } from './block.js';
import { textAt } from './svg.js';
import { LEADING } from './type.js';
import { wrapped } from './wrapped.js';

/** Where a text stands, and how. */
export interface Setting {
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly size: number;
  readonly bold?: boolean;
}

/** A text in as many lines as it takes, from a top downwards. */
export function paragraph(text: string, { left, top, width, size, bold = false }: Setting): Block {
  const lines = wrapped(text, bold ? width / BOLDER : width, size);
  const step = size * LEADING;
  const type = { 'font-size': size, ...(bold ? { 'font-weight': 'bold' } : {}) };
  return {
    markup: lines.map((line, i) => textAt(left, top + step * i + size, line, type)).join(''),
    bottom: top + step * lines.length,
  };
}

/** About how much wider bold type runs. */
const BOLDER = 1.12;
