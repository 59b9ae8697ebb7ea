import { type Box, boxRound, overlapOf } from '../drawing/box.js';
import { textAt } from '../drawing/svg.js';
import { widthOf } from '../drawing/wrapped.js';
import type { MapFrame } from './mapFrame.js';

/** Puts names beside places of a map where there is room: each name keeps clear of all that was taken before it. */
export interface Names {
  /** Nothing may be written over this. */
  readonly take: (box: Box) => void;
  readonly isFree: (box: Box) => boolean;
  /** The name beside a place; nothing where there is no room. */
  readonly put: (place: readonly [x: number, y: number], text: string, className: 'place-name' | 'noon-name') => string;
}

export function namesOn({ isInside }: Pick<MapFrame, 'isInside'>): Names {
  const taken: Box[] = [];
  const isFree = (box: Box) => isInside(box) && taken.every((other) => overlapOf(box, other) === 0);
  return {
    take: (box) => void taken.push(box),
    isFree,
    put([x, y], text, className) {
      const wide = widthOf(text, className === 'place-name' ? BOLD : SIZE);
      const spots = [18, 32].flatMap((far) => [
        [x, y + far],
        [x, y + 8 - far],
        [x - wide / 2 - far + 6, y + 4],
        [x + wide / 2 + far - 6, y + 4],
        [x - wide / 2, y + far],
        [x + wide / 2, y + far],
        [x - wide / 2, y + 8 - far],
        [x + wide / 2, y + 8 - far],
      ]);
      for (const [cx = 0, cy = 0] of spots) {
        const box = boxRound(cx, cy - 4, wide + 2, 13);
        if (!isFree(box)) continue;
        taken.push(box);
        return textAt(cx, cy, text, { class: className, 'text-anchor': 'middle' });
      }
      return '';
    },
  };
}

const SIZE = 11;
/** Bold type runs wider. */
const BOLD = 12.3;
