import type { SailPlan } from '../boat/boat.js';
import type { SailKind } from '../sail/sail.js';
import { touching } from '../touching.js';
import type { Cell, Hole, SettledCrossoverOptions, WithoutSail } from './record.js';
import { regionOf, spanOf } from './region.js';

/** Smaller regions are the edge of a grid cell, not a hole. */
const LEAST_CELLS = 3;

/** Holes that touch are one region; the largest first. */
export function regionsOf(cells: readonly Cell[], grid: SettledCrossoverOptions): readonly Hole[] {
  return groupsOf(cells, ({ hole }) => hole !== null, grid.twsKn.length)
    .filter((group) => group.length >= LEAST_CELLS)
    .map((group) => holeOf(group, grid));
}

function holeOf(region: readonly Cell[], grid: SettledCrossoverOptions): Hole {
  const deepest = region.reduce((most, cell) => (cell.hole!.slowerPercent > most.hole!.slowerPercent ? cell : most));
  const awas = region.flatMap(({ awaDeg }) => awaDeg ?? []);
  const counts = new Map<SailKind, number>();
  for (const { hole } of region) counts.set(hole!.kind, (counts.get(hole!.kind) ?? 0) + 1);
  return {
    ...regionOf(region, grid),
    awaDeg: awas.length === 0 ? null : spanOf(awas),
    kinds: [...counts].sort((a, b) => b[1] - a[1]).map(([kind]) => kind),
    deepest: { ...deepest.hole!, twsKn: deepest.twsKn, twaDeg: deepest.twaDeg, sailPlan: deepest.sailPlan },
    certain: region.every(({ hole }) => hole!.certain),
  };
}

/** Cells of which something holds, in groups that touch; the largest first. */
function groupsOf(cells: readonly Cell[], holds: (cell: Cell) => boolean, columns: number): readonly Cell[][] {
  const groups = new Map<number, Cell[]>();
  touching(
    cells.map((cell) => (holds(cell) ? 1 : undefined)),
    columns,
  ).forEach((group, i) => {
    if (group !== undefined) groups.set(group, [...(groups.get(group) ?? []), cells[i]!]);
  });
  return [...groups.values()].sort((a, b) => b.length - a.length);
}

/** Nearer the wind a boat may well have no plan. */
const BEATING_DEG = 60;

/** Winds and angles off the wind at which no plan under sail may be carried and makes way; the largest first. */
export function withoutSailIn(
  cells: readonly Cell[],
  plans: readonly SailPlan[],
  grid: SettledCrossoverOptions,
): readonly WithoutSail[] {
  const bare = new Set(plans.flatMap(({ id, sails }) => (sails.length === 0 ? [id] : [])));
  const isBare = ({ twaDeg, sailPlan }: Cell) => twaDeg >= BEATING_DEG && (sailPlan === null || bare.has(sailPlan));
  return groupsOf(cells, isBare, grid.twsKn.length).map((region) => regionOf(region, grid));
}
