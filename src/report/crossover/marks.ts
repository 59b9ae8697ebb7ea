import type { Box } from '../drawing/box.js';

/** What is drawn over the areas, and where it covers them, so that codes keep clear of it. */
export interface Marks {
  readonly markup: string;
  readonly boxes: readonly Box[];
}
