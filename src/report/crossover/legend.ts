import type { Block } from '../drawing/block.js';
import { codeAt } from '../drawing/codePlate.js';
import type { Fill } from '../drawing/palette.js';
import { paragraph } from '../drawing/paragraph.js';
import { element, textAt } from '../drawing/svg.js';
import { INK_BLACK, LEADING, SIZE } from '../drawing/type.js';
import type { PlanShown } from './plansShown.js';

/** The plans of the chart, most used first: code, fill, id and share of the cells. */
export function legendOf(plans: readonly PlanShown[], cells: number, left: number, top: number, width: number): Block {
  const head = paragraph('Fastest plan, share of the chart', { left, top, width, size: SIZE.text, bold: true });
  const parts = [head.markup];
  let bottom = head.bottom + 4;
  const row = (id: string, count: number, fill: Fill | undefined, code?: string) => {
    const middle = bottom + ROW / 2;
    if (code !== undefined) parts.push(codeAt(left + CODE / 2, middle, code));
    parts.push(swatchAt(left + CODE + 4, middle, fill));
    const text = { left: left + CODE + SWATCH.width + 14, top: middle - 8.5, size: SIZE.small };
    const name = paragraph(id, { ...text, width: left + width - SHARE - text.left });
    parts.push(name.markup);
    parts.push(
      textAt(left + width, middle + 4.5, shareOf(count, cells), { 'font-size': SIZE.small, 'text-anchor': 'end' }),
    );
    bottom = Math.max(bottom + ROW, name.bottom + 2);
  };
  for (const { id, code, fill, cells: count } of plans) row(id, count, fill, code);
  const none = cells - plans.reduce((sum, plan) => sum + plan.cells, 0);
  if (none > 0) row('no plan makes way', none, undefined);
  return { markup: element('g', { class: 'legend' }, ...parts), bottom };
}

const CODE = 30;
const SWATCH = { width: 42, height: 18 };
const SHARE = 62;
const ROW = Math.max(SIZE.small * LEADING, SWATCH.height) + 6;

/** A sample of a fill; white without one. */
function swatchAt(left: number, middle: number, fill: Fill | undefined): string {
  const box = { x: left, y: middle - SWATCH.height / 2, ...SWATCH };
  return (
    element('rect', { ...box, fill: fill?.tint ?? '#fff' }) +
    element('rect', { ...box, fill: fill === undefined ? 'none' : `url(#${fill.id})`, stroke: INK_BLACK })
  );
}

export function shareOf(count: number, cells: number): string {
  const percent = (100 * count) / cells;
  return percent < 0.05 ? '< 0.1 %' : `${percent.toFixed(1)} %`;
}
