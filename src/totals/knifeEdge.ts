import type { Hour } from '../passage/passage.js';

/** A placeholder: a plan that stands in less than half of the winds near the forecast's is on a knife's edge. */
const KNIFE_EDGE = 0.5;

/** Whether a plan would not stand in most of the winds near the one it meets; of an hour of which that is not known it is not. */
export const isOnKnifeEdge = ({ standsShare }: Pick<Hour, 'standsShare'>): boolean =>
  standsShare !== null && standsShare < KNIFE_EDGE;
