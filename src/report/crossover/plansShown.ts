import type { Crossover } from '../../crossover/crossover.js';
import { codeOf } from '../drawing/codePlate.js';
import { type Fill, fillsFor } from '../drawing/palette.js';

/** A plan that is the fastest somewhere, as the chart shows it. */
export interface PlanShown {
  readonly id: string;
  readonly code: string;
  readonly fill: Fill;
  readonly cells: number;
}

/** The plans that are the fastest somewhere, most used first; of as many cells, the one met first. */
export function plansShown(crossover: Crossover): readonly PlanShown[] {
  const counts = new Map<string, number>();
  for (const { sailPlan } of crossover.cells) {
    if (sailPlan !== null) counts.set(sailPlan, (counts.get(sailPlan) ?? 0) + 1);
  }
  const used = [...counts].sort((a, b) => b[1] - a[1]);
  const ids = used.map(([id]) => id);
  const borders = bordersIn(crossover);
  const fills = fillsFor(ids.length, (a, b) => borders.get(ids[a]!)?.get(ids[b]!) ?? 0);
  return used.map(([id, cells], rank) => ({ id, code: codeOf(rank), fill: fills[rank]!, cells }));
}

/** Beside how many cells of each other plan those of a plan lie. */
function bordersIn({ cells, options }: Crossover): ReadonlyMap<string, ReadonlyMap<string, number>> {
  const columns = options.twsKn.length;
  const borders = new Map<string, Map<string, number>>();
  const add = (a: string, b: string) => {
    const ofA = borders.get(a) ?? new Map<string, number>();
    borders.set(a, ofA.set(b, (ofA.get(b) ?? 0) + 1));
  };
  cells.forEach(({ sailPlan }, i) => {
    const right = (i + 1) % columns === 0 ? undefined : cells[i + 1];
    for (const near of [right, cells[i + columns]]) {
      const other = near?.sailPlan ?? null;
      if (sailPlan === null || other === null || other === sailPlan) continue;
      add(sailPlan, other);
      add(other, sailPlan);
    }
  });
  return borders;
}
