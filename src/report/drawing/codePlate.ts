import { boxRound } from './box.js';
import { element, textAt } from './svg.js';
import { INK_BLACK } from './type.js';
import { widthOf } from './wrapped.js';

/** The code of a plan on a plate of white, which is read on any motif. */
export function codeAt(x: number, y: number, code: string): string {
  const { left, top, width, height } = boxRound(x, y, codeWidth(code), CODE_HEIGHT);
  return (
    element('rect', { x: left, y: top, width, height, rx: 4, fill: '#fff', stroke: INK_BLACK, 'stroke-width': 0.6 }) +
    textAt(x, y + 4.6, code, { 'font-size': SIZE, 'font-weight': 'bold', 'text-anchor': 'middle', fill: INK_BLACK })
  );
}

const SIZE = 13;
export const CODE_HEIGHT = 16;
export const codeWidth = (code: string) => widthOf(code, SIZE) + 6;

/** A, B … Z, AA, AB … */
export function codeOf(rank: number): string {
  const letter = String.fromCharCode(65 + (rank % 26));
  return rank < 26 ? letter : codeOf(Math.floor(rank / 26) - 1) + letter;
}
