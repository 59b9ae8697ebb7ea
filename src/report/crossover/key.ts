import { type CellHole, type Crossover, withArticle } from '../../crossover/crossover.js';
import type { Block } from '../drawing/block.js';
import { paragraph } from '../drawing/paragraph.js';
import { element, rounded } from '../drawing/svg.js';
import { SIZE } from '../drawing/type.js';
import { bestLine } from './bestAngleLines.js';
import { holeNumber, holeOutline, holesTold } from './holeMarks.js';
import { questionMark } from './undecidedMarks.js';

/** What the marks on the chart mean, each told where it is met, and what is missing in each numbered hole. */
export function keyOf(crossover: Crossover, left: number, top: number, width: number): Block {
  const { bestAngles, cells, holes, options } = crossover;
  const parts: string[] = [];
  let bottom = top;
  const entry = (symbol: (x: number, y: number) => string, text: string) => {
    const drawn = symbol(left + SYMBOL / 2, bottom + 9);
    // Symbols are made for white, which a page may not be.
    if (drawn !== '')
      parts.push(element('rect', { x: left, y: bottom - 1, width: SYMBOL, height: 20, rx: 3, fill: '#fff' }), drawn);
    const at = { left: left + SYMBOL + 12, top: bottom + 1, width: width - SYMBOL - 12, size: SIZE.small };
    const block = paragraph(text, at);
    parts.push(block.markup);
    bottom = Math.max(block.bottom, bottom + 18) + 5;
  };
  if (bestAngles.some(({ up }) => up !== null))
    entry(sampleLine('up'), 'Best angle up: most speed made good to windward.');
  if (bestAngles.some(({ down }) => down !== null)) {
    entry(sampleLine('down'), 'Best angle down: most speed made good to leeward.');
  }
  if (cells.some(({ undecided }) => undecided)) {
    entry(
      questionMark,
      'Undecided: another plan is the fastest if one assumption of the estimate is moved within its band.',
    );
  }
  if (holes.length > 0) {
    entry(
      sampleOutline,
      `No good sail: by the estimate every plan aboard is at least ${rounded(options.holePercent)} % slower than a sail of the catalogue would be.`,
    );
    holesTold(crossover).forEach(({ deepest }, i) => {
      const where = `TWS ${rounded(deepest.twsKn)}, TWA ${rounded(deepest.twaDeg)}`;
      entry((x, y) => holeNumber(x, y, i + 1), `no good sail: ${missing(deepest)} (deepest at ${where})`);
    });
    const more = holes.length - holesTold(crossover).length;
    if (more > 0) entry(() => '', `And ${more} smaller, outlined and not numbered.`);
  }
  return { markup: element('g', { class: 'key' }, ...parts), bottom };
}

const SYMBOL = 48;

const sampleLine = (board: 'up' | 'down') => (x: number, y: number) =>
  bestLine(
    [
      [
        [x - SYMBOL / 2 + 4, y],
        [x, y],
        [x + SYMBOL / 2 - 4, y],
      ],
    ],
    board,
  );

const sampleOutline = (x: number, y: number) => holeOutline(`M${x - 18} ${y - 6}H${x + 18}V${y + 6}H${x - 18}Z`);

function missing({ kind, stwKn, aboardKn }: CellHole): string {
  const sail = withArticle(kind);
  return aboardKn < 0.1
    ? `${sail} would make ${stwKn.toFixed(1)} kn where no plan aboard makes way`
    : `${sail} would make ${stwKn.toFixed(1)} kn, and what is aboard ${aboardKn.toFixed(1)}`;
}
